import { describe, expect, it } from 'vitest'
import { circuit, respondToPwm } from '../src/waveform/inside.js'

/**
 * A capacitor so large that its voltage stands still under PWM: a voltage source behind its series resistance. Its mean current is 0,
 * which fixes its voltage; the rail is then what three conductances leave, load on and off.
 */
function byBalance(x: { V: number; R: number; ESR: number; I: number; G: number; D: number }) {
  const conductance = (isOn: boolean) => 1 / x.R + 1 / x.ESR + (isOn ? x.G : 0)
  const rail = (u: number, isOn: boolean) => (x.V / x.R + u / x.ESR - (isOn ? x.I : 0)) / conductance(isOn)
  const mean = (u: number) => x.D * rail(u, true) + (1 - x.D) * rail(u, false)
  // A straight line of u, which meets u itself.
  const u = mean(0) / (1 - (mean(1) - mean(0)))
  return { u, lowest: rail(u, true) }
}

describe('a supercapacitor under PWM', () => {
  const V = 3.7
  const pwm = { frequency: 20e3, duty: 0.4, rise: 1e-8, fall: 1e-8 }
  it.each([1, 10, 100])('of %d F keeps the balance of its charge', (capacitance) => {
    for (const [R, ESR] of [
      [0.1, 0.005],
      [0.5, 0.03],
      [2, 1e-3],
    ] as const) {
      for (const load of [
        { kind: 'current', current: 1 },
        { kind: 'resistor', resistance: 2 },
      ] as const) {
        const G = load.kind === 'resistor' ? 1 / load.resistance : 0
        const I = load.kind === 'current' ? load.current : 0
        const true_ = byBalance({ V, R, ESR, I, G, D: pwm.duty })
        const source = { voltage: V, resistance: R, inductance: 0 }
        const found = respondToPwm(circuit(source, [{ capacitance, resistance: ESR, inductance: 0 }], 0), load, pwm)
        // Edges of a nanosecond, and what it discharges in a period, are left out by hand.
        expect(found!.lowest.value).toBeCloseTo(true_.lowest, 4)
        expect(found!.steady.voltages[0]).toBeCloseTo(true_.u, 4)
      }
    }
  })

  it('at a port that holds its current carries the peaks, as long as the port gives the mean', () => {
    const source = { voltage: 5, resistance: 0.25, inductance: 0, currentLimit: 0.5 }
    const supercapacitor = [{ capacitance: 50, resistance: 0.05, inductance: 0 }]
    const at = (current: number) =>
      respondToPwm(
        circuit(source, supercapacitor, 0),
        { kind: 'current', current },
        { ...pwm, frequency: 1e3, rise: 1e-6, fall: 1e-6 },
      )
    // 0.8 A for 40 % are 0.32 A through 0.25 ohm; on, 0.8 A across both resistances side by side.
    const V_1 = 5 - 0.25 * 0.32
    expect(at(0.8)!.lowest.value).toBeCloseTo((V_1 / 0.05 + 5 / 0.25 - 0.8) / (1 / 0.05 + 1 / 0.25), 3)
    expect(at(1.4)).toBeNull()
  })
})
