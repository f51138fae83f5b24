import { describe, expect, it } from 'vitest'
import { railInPwm, rippleCurrentLimit, rippleCurrentShared } from '../src/formulas/index.js'
import {
  type Circuit,
  circuit,
  type Load,
  type Pwm,
  pwmCurrents,
  pwmStart,
  respondToPwm,
} from '../src/waveform/inside.js'
import { randomCase } from './random.js'
import { Reference, uniform } from './reference.js'

const part = { capacitance: 1e-3, resistance: 0.03, inductance: 0 }
const source = { voltage: 3.7, resistance: 0.1, inductance: 0 }
const sharp = { rise: 0, fall: 0 }

/** All there is to know of a steady state. */
function everything(c: Circuit, load: Load, pwm: Pwm) {
  const found = respondToPwm(c, load, pwm)!
  return { ...found, ...pwmCurrents(c, found), start: pwmStart(c, load, found) }
}

describe('steady PWM', () => {
  it.each([20, 1000, 1e5])('of a current at %d Hz has the lowest point of the first-order formula', (frequency) => {
    for (const duty of [0.1, 0.5, 0.9]) {
      const found = everything(
        circuit(source, [part], 0),
        { kind: 'current', current: 5 },
        { frequency, duty, ...sharp },
      )!
      const tau_I = 0.13e-3
      const formula = railInPwm({ V_rest: 3.7, I_step: 5, R_s: 0.1, ESR: 0.03, D: duty, T_pwm: 1 / frequency, tau_I })
      expect(found.lowest.value).toBeCloseTo(formula, 10)
      expect(found.sourceMean).toBeCloseTo(5 * duty, 10)
      expect(found.mean).toBeCloseTo(3.7 - 0.1 * 5 * duty, 10)
      expect(found.start.lowest).toBeCloseTo(found.lowest.value, 3)
    }
  })

  it('shares the ripple current by resistance at high frequency, and leaves it to the cell at low', () => {
    const at = (frequency: number) =>
      everything(circuit(source, [part], 0), { kind: 'current', current: 8 }, { frequency, duty: 0.5, ...sharp })
    const I_alt = rippleCurrentLimit({ I_step: 8, D: 0.5 })
    expect(at(1e6).capacitorRms[0]).toBeCloseTo(rippleCurrentShared({ I_alt, R_s: 0.1, ESR: 0.03 }), 4)
    expect(at(1).capacitorRms[0]!).toBeLessThan(0.02 * I_alt)
    for (const f of [1, 100, 1e4, 1e6]) expect(at(f).capacitorRms[0]!).toBeLessThanOrEqual(I_alt)
  })

  it('is where the reference ends after many periods, on random circuits with a current or a resistor', () => {
    const random = uniform(31)
    for (let n = 0; n < 12; n++) {
      const { source: feed, parts, idle, load } = randomCase(random)
      const frequency = 10 ** (3 + 2 * random())
      const pwm: Pwm = { frequency, duty: 0.2 + 0.6 * random(), rise: 0.05 / frequency, fall: 0.05 / frequency }
      const found = everything(circuit(feed, parts, idle), load, pwm)
      const rail = new Reference(feed, parts, idle)
      const on = pwm.duty / frequency
      const endOfRise = (current: number): number => {
        const kept = rail.x
        const v = rail.run(0, idle, current / pwm.rise, pwm.rise, 1)[1]!
        rail.x = kept
        return v
      }
      let lowest = 0
      let before = 1
      for (let k = 0; k < 3000 && Math.abs(lowest - before) > 1e-12; k++) {
        before = lowest
        const open = endOfRise(0)
        const risen = load.kind === 'current' ? load.current : open / (load.resistance + open - endOfRise(1))
        const seen = rail.run(0, idle, risen / pwm.rise, pwm.rise, 20)
        const held = load.kind === 'current' ? ([0, idle + risen] as const) : ([1 / load.resistance, idle] as const)
        seen.push(...rail.run(...held, 0, on - pwm.rise, 50))
        const left = load.kind === 'current' ? risen : seen.at(-1)! / load.resistance
        seen.push(...rail.run(0, idle + left, -left / pwm.fall, pwm.fall, 20))
        seen.push(...rail.run(0, idle, 0, 1 / frequency - on - pwm.fall, 50))
        lowest = Math.min(...seen)
      }
      expect(found.lowest.value).toBeLessThanOrEqual(lowest + 1e-9)
      expect(found.lowest.value).toBeGreaterThan(lowest - 0.02 * found.ripple - 1e-6)
    }
  }, 300_000)

  it("gives the source's power to its resistance, the capacitors' and the load", () => {
    const random = uniform(5)
    for (let n = 0; n < 30; n++) {
      const { source: feed, parts, idle, load } = randomCase(random)
      const pwm: Pwm = { frequency: 5000, duty: 0.4, rise: 1e-5, fall: 1e-5 }
      const found = everything(circuit(feed, parts, idle), load, pwm)
      const lost = parts.reduce(
        (sum, p, k) => sum + p.resistance * found.capacitorRms[k]! ** 2,
        feed.resistance * found.sourceRms ** 2,
      )
      expect(lost + found.loadPower).toBeCloseTo(feed.voltage * found.sourceMean, 9)
    }
  })

  it('has no steady state when a limited source gives less than the mean current, and one when it gives more', () => {
    const weak = { ...source, voltage: 5, currentLimit: 0.5 }
    const at = (current: number) =>
      respondToPwm(circuit(weak, [part], 0), { kind: 'current', current }, { frequency: 1000, duty: 0.5, ...sharp })
    expect(at(1.2)).toBeNull()
    const found = everything(
      circuit(weak, [part], 0),
      { kind: 'current', current: 0.9 },
      { frequency: 1000, duty: 0.5, ...sharp },
    )
    expect(found.sourceMean).toBeCloseTo(0.45, 9)
  })

  it('J10 counterexample: near a resonance more capacitance droops more', () => {
    const lowestWith = (capacitance: number): number =>
      respondToPwm(
        circuit(
          { voltage: 3.7, resistance: 0.02, inductance: 2e-6 },
          [{ capacitance, resistance: 0.005, inductance: 0 }],
          0,
        ),
        { kind: 'current', current: 5 },
        { frequency: 20_000, duty: 0.5, ...sharp },
      )!.lowest.value
    // 2 µH with 30 µF rings at 20.5 kHz: three times the capacitance of 10 µF, and a far lower rail.
    expect(lowestWith(30e-6)).toBeLessThan(lowestWith(10e-6) - 0.1)
    expect(lowestWith(300e-6)).toBeGreaterThan(lowestWith(30e-6))
  })
})
