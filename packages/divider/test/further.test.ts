import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { checkDivider, type DividerChoice } from '../src/index.js'
import { ideal as usual } from './design.js'

/** Ideal parts: what is looked at stands alone. 3.3 V through 47 ohm and a load of 0.7 ohm. */
const ideal: DividerChoice = {
  ...usual,
  converter: { ...usual.converter, bits: 24 },
  surroundings: { ...usual.surroundings, protectionResistance: '10 kohm' },
  timing: { samples: 65536 },
}
const at = (celsius: number) => ({ rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: celsius, to: celsius } })
const checked = (choice: Partial<DividerChoice>, celsius = 25) =>
  checkDivider({ ...ideal, ...choice }, at(celsius), { simulation: false })
const worst = (choice: Partial<DividerChoice>, celsius = 25, id = 'error-nominal') =>
  checked(choice, celsius).margins.find((margin) => margin.id === id)!.worst

/** What the firmware makes of a voltage at the amplifier's input: the load that would stand there. */
const shown = (volts: number) => (47 * volts) / (3.3 - volts)
const sense = (3.3 * 0.7) / 47.7

/** Farther of two readings from the load. */
const reach = (by: (sign: number) => number) => Math.max(...[-1, 1].map((sign) => Math.abs(shown(by(sign)) - 0.7)))
/** What noise and rounding leave of ideal parts. */
const none = worst({})

describe('further errors of a data sheet', () => {
  it('move the reading: volts by themselves, shares by the output, currents by their resistor, drifts by the warmth', () => {
    const moved = (further: DividerChoice['further'], celsius = 25) => worst({ further }, celsius)
    const near = (claimed: number, truth: number) => {
      expect(claimed).toBeGreaterThan(truth * (1 - 1e-9))
      expect(claimed).toBeLessThan(truth * 1.001 + none)
    }
    near(
      moved([{ name: 'strain', voltage: '1 mV' }]),
      reach((sign) => sense + sign * 1e-3),
    )
    near(
      moved([{ name: 'outer reference', share: '1 %' }]),
      reach((sign) => sense * (1 + sign * 0.01)),
    )
    near(
      moved([{ name: 'suppressor', current: '100 nA' }]),
      reach((sign) => sense + sign * 1e-3),
    )
    near(
      moved([{ name: 'strain', voltage: 0, perKelvin: '20 uV/K' }], 75),
      reach((sign) => sense + sign * 1e-3),
    )
    const both = [
      { name: 'strain', voltage: '1 mV', perKelvin: '10 uV/K' },
      { name: 'outer reference', share: '1 %', perKelvin: '50 ppm/K' },
    ]
    near(
      moved(both, 75),
      reach((sign) => (sense + sign * 1.5e-3) * (1 + sign * 0.0125)),
    )
  })

  it('are named, stay through any calibration, and reach every row', () => {
    const further = [{ name: 'strain of the board', voltage: '1 mV' }]
    for (const calibration of ['none', 'zero', { kind: 'zero and span', resistor: '1 ohm' }] as const)
      expect(worst({ further, calibration })).toBeGreaterThan(0.99 * (1e-3 / (3.3 / 47.7)))
    const a = checked({ further })
    expect(a.assumptions.join(' ')).toContain('strain of the board (V_add1): ±1 mV')
    expect(a.derivation.find(({ symbol }) => symbol === 'V_add')!.expression).toBe('V_add1')
    const line = a.budgets.R_ind.linear.contributions.find(({ input }) => input === 'V_add1')!
    expect(Math.abs(line.contribution)).toBeGreaterThan(0.005)
    // 1 mV times the gain of 23 is missing at the top.
    const top = (choice: object) => worst(choice, 25, 'headroom')
    expect(top({ further }) - top({})).toBeCloseTo(0.023, 4)
  })

  it('may be another at rest than hot where a temperature is read', () => {
    const element = { coefficient: 0.004, curvature: 0 }
    const thermometry = { element, restCelsius: 25, hotCelsius: 125, error: 50 } as const
    const off = worst({ thermometry, further: [{ name: 'strain', voltage: '1 mV' }] }, 25, 'temperature')
    // 0.7 ohm at rest, 0.98 hot; one is off by 1 mV up, the other down.
    const hot = shown((3.3 * 0.98) / 47.98 + 1e-3)
    const cold = shown(sense - 1e-3)
    expect(off).toBeCloseTo((hot / cold - 1) / 0.004 - 100, 1)
  })

  it.each<[string, object]>([
    ['further[0]', { name: 'nothing' }],
    ['further[0]', { name: 'two', voltage: 1e-3, share: 0.01 }],
    ['further[0].voltage', { name: 'x', voltage: '5 A' }],
    ['further[0].perKelvin', { name: 'x', share: 0.01, perKelvin: '1 mV/K' }],
  ])('%s is refused', (field, error) => {
    let refused: unknown
    try {
      checked({ further: [error] as unknown as DividerChoice['further'] })
    } catch (e) {
      refused = e
    }
    expect(refused).toBeInstanceOf(InputError)
    expect((refused as InputError).field).toBe(field)
  })
})
