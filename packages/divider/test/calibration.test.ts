import { extremes } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { type Calibration, type DividerChoice, dividerModel, exampleAmplifiers } from '../src/index.js'
import { cell, check, ideal, idealConverter, knife, margin } from './design.js'

const span: Calibration = { kind: 'zero and span', resistor: '1 ohm' }

/** Half the width of what one kind of error makes of the reading, everything else ideal, at 25 °C and the nominal rail. */
function reach(choice: Partial<DividerChoice>, calibration: Calibration, R_x = 0.7, T_d = 0): number {
  const whole: DividerChoice = { ...ideal, pedestal: 0.1, ...choice, calibration }
  const { inputs, model, row } = dividerModel(whole, cell)
  // Noise, rounding and finite rejection stand still, so that the error looked at stands alone.
  const still = { a_ol: 0, m_ps: 0, m_cm: 0, e_q: 0, e_qz: 0, e_qs: 0, V_n: 0, V_nz: 0, V_ns: 0 }
  const kept = Object.fromEntries(Object.entries(still).filter(([name]) => name in inputs))
  const { lower, upper } = extremes({ ...inputs, ...kept, R_x, V_rail: 3.6, T_d } as never, model as never, { row })
  return Math.max(R_x - lower, upper - R_x)
}
const withOffset = { amplifier: { ...ideal.amplifier, offsetVoltage: '1 mV' } }
const withDrift = { amplifier: { ...ideal.amplifier, offsetDrift: '10 uV/K' } }
const withGain = { gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %', ratioDrift: 0 } }

describe('without a calibration', () => {
  it('an offset is an error of its voltage over the test current', () => {
    // 1 mV of 3.6 V over 47.7 ohm, at the reference resistor's side of the divider.
    const r = 0.7 / 47.7 + 1e-3 / 3.6
    expect(reach(withOffset, 'none')).toBeCloseTo((47 * r) / (1 - r) - 0.7, 9)
    expect(reach(withOffset, 'none')).toBeGreaterThan(0.012)
  })

  it('gain resistors make the error of their ratio', () => {
    const G = 1 + (22 * 1.01) / 0.99
    const r = ((0.7 / 47.7) * G) / 23
    expect(reach(withGain, 'none')).toBeCloseTo((47 * r) / (1 - r) - 0.7, 9)
  })
})

describe('a zero', () => {
  it('takes the offset away, but for the curvature of the divider', () => {
    // The offset counts (1 + R_x/R_ref)^2 at the load, 1 at the short.
    const left = (1e-3 / (3.6 / 47)) * ((1 + 0.7 / 47) ** 2 - 1)
    expect(reach(withOffset, { kind: 'zero' })).toBeCloseTo(left, 5)
    expect(reach(withOffset, { kind: 'zero' })).toBeLessThan(0.04 * reach(withOffset, 'none'))
  })

  it('leaves the gain error', () => {
    expect(reach(withGain, { kind: 'zero' })).toBeCloseTo(reach(withGain, 'none'), 12)
  })

  it('leaves drift: 20 K away from the calibration it is all there', () => {
    expect(reach(withDrift, { kind: 'zero' }, 0.7, 0)).toBeLessThan(1e-9)
    const drifted = reach(withDrift, { kind: 'zero' }, 0.7, 20)
    expect(drifted / reach(withDrift, 'none', 0.7, 20)).toBeCloseTo(1, 9)
    // Calibrated where it is used, nothing is left.
    expect(reach(withDrift, { kind: 'zero', atCelsius: 45 }, 0.7, 20)).toBeLessThan(1e-4)
    expect(reach(withDrift, { kind: 'zero', atCelsius: '45 degC ±5 K' }, 0.7, 20)).toBeGreaterThan(5e-4)
  })

  it('takes on what the short really has', () => {
    expect(reach({}, { kind: 'zero', short: '2 mohm' })).toBeCloseTo(2e-3, 9)
    expect(reach({}, { kind: 'zero', short: '2 mohm' }, 0.7)).toBeGreaterThan(1.9e-3)
  })

  it('takes leads away with two wires, not the moving of contacts', () => {
    const leads = { wires: 2, surroundings: { ...ideal.surroundings, leadResistance: '100 mohm ±50 mohm' } } as const
    expect(reach(leads, 'none')).toBeCloseTo(0.05, 9)
    expect(reach(leads, { kind: 'zero' })).toBeLessThan(1e-9)
    const contacts = { wires: 2, surroundings: { ...ideal.surroundings, contactVariation: '30 mohm' } } as const
    expect(reach(contacts, 'none')).toBeCloseTo(0.03, 9)
    expect(reach(contacts, { kind: 'zero' })).toBeCloseTo(0.03, 9)
    // Sensed at the load, both stand in the loop only: a ten-thousandth of the resistance there.
    expect(reach({ ...leads, wires: 4 }, 'none')).toBeCloseTo(0.7 * (0.05 / 47.05), 5)
  })

  it('leaves what the clamp leaks when hot: it was not there on the bench', () => {
    // 1 uA through 10 kohm: 10 mV of 3.6 V.
    const leaking = { surroundings: { ...ideal.surroundings, protectionResistance: '10 kohm', clampLeakage: '1 uA' } }
    const r = 0.7 / 47.7 + 10e-3 / 3.6
    expect(reach(leaking, 'none')).toBeCloseTo((47 * r) / (1 - r) - 0.7, 9)
    expect(reach(leaking, { kind: 'zero' })).toBeCloseTo(reach(leaking, 'none'), 9)
    expect(reach(leaking, span)).toBeGreaterThan(0.95 * reach(leaking, 'none'))
    // 1 mA of the hot switch beside 75 mA, less what it takes from the test current: 1 mA in 3.6 V / 47 ohm.
    const switched = { surroundings: { ...ideal.surroundings, switchLeakage: '1 mA' } }
    expect(reach(switched, span) / 0.7).toBeCloseTo((1e-3 * 47) / 3.6, 3)
  })

  it('leaves noise, rounding and the place on the curve: two readings have more than one', () => {
    const rounding = (choice: Partial<DividerChoice>, calibration: Calibration) => {
      const { inputs, model, row } = dividerModel({ ...ideal, pedestal: 0.1, ...choice, calibration }, cell)
      const at = { ...inputs, V_rail: 3.6, T_d: 0, a_ol: 0, m_ps: 0, m_cm: 0, V_n: 0, V_nz: 0 }
      const { lower, upper } = extremes(at as never, model as never, { row })
      return (upper - lower) / 2
    }
    const alone = rounding({}, 'none')
    // Half a count of 4096 over gain 23: by hand.
    expect(alone).toBeCloseTo(((0.5 / 4096 / 23) * 47.7 ** 2) / 47, 8)
    expect(rounding({}, { kind: 'zero' }) / alone).toBeCloseTo(1 + (47 / 47.7) ** 2, 3)
    const noisy = { converter: { ...idealConverter, noise: 2, nonlinearity: 3 } }
    expect(rounding(noisy, 'none') / alone).toBeCloseTo(1 + (3 * 2 + 3) / 0.5, 3)
    expect(rounding(noisy, { kind: 'zero' })).toBeGreaterThan(1.9 * rounding(noisy, 'none'))
  })
})

describe('a zero and a known resistor', () => {
  it('take gain, reference resistor and offset away', () => {
    expect(reach(withGain, span)).toBeLessThan(2e-4)
    expect(reach({ reference: '47 ohm ±1 %' }, span)).toBeLessThan(1e-4)
    expect(reach(withOffset, span, 1)).toBeLessThan(1e-9)
    const both = { ...withGain, ...withOffset, reference: '47 ohm ±1 %' }
    expect(reach(both, span, 1)).toBeLessThan(1e-9)
  })

  it('take on the error of the resistor', () => {
    expect(reach({}, { kind: 'zero and span', resistor: '1 ohm ±0.5 %' })).toBeCloseTo(0.7 * (1 / 0.995 - 1), 6)
  })

  it('read at a rail of their own: a saturation voltage then spoils the scale', () => {
    const saturated = { excitationSwitch: { saturation: '0.2 V' } }
    expect(reach(saturated, { ...span, rail: '3.6 V' }, 1)).toBeLessThan(1e-9)
    const off = reach(saturated, { ...span, rail: '4.2 V' }, 1)
    // (3.4/3.6)/(4.0/4.2) - 1 = -0.83 %.
    expect(off).toBeCloseTo(1 - ((3.4 / 3.6) * 4.2) / 4, 3)
  })
})

describe('a zero clipped at the lowest output (A04)', () => {
  it('fails without a pedestal, holds with one', () => {
    const clipped = margin({ ...knife, calibration: { kind: 'zero' } }, 'zero')
    expect(clipped.verdict).toBe('fails')
    expect(clipped.catches).toEqual(['A04'])
    // The lowest output and two counts: 15 mV + 2 * 3 V / 4096.
    expect(clipped.limit).toBeGreaterThanOrEqual(0.015 + 6 / 4096 - 1e-12)
    expect(clipped.limit).toBeLessThanOrEqual(0.015 + 8.4 / 4096 + 1e-12)
    expect(margin({ ...knife, pedestal: 0.02, calibration: { kind: 'zero' } }, 'zero').verdict).toBe('holds')
  })

  it('makes its error: the floor is stored for the offset', () => {
    // -3 mV, gain 40, floor 20 mV: wanted -120 mV, stored 20 mV.
    const amplifier = {
      ...ideal.amplifier,
      offsetVoltage: { nominal: -3e-3, lower: -3e-3, upper: -2.9999e-3, distribution: { kind: 'rectangular' } },
      lowOutput: '20 mV',
    } as const
    const gainResistors = { feedback: '39 kohm', ground: '1 kohm', ratioDrift: 0 }
    const off = reach({ amplifier, gainResistors, pedestal: 0 }, { kind: 'zero' })
    const current = 3.6 / 47.7
    // 3 mV and the floor referred to input, over the test current; the divider's curvature adds 3 % at most.
    expect(off / ((3e-3 + 0.02 / 40) / current)).toBeCloseTo(1, 1)
    expect(reach({ amplifier, gainResistors, pedestal: 0.06 }, { kind: 'zero' })).toBeLessThan(0.04 * off)
  })

  it('is told of in every zero, and not asked without one', () => {
    expect(check({ ...knife, calibration: span }).margins.map(({ id }) => id)).toContain('zero')
    expect(check(knife).margins.map(({ id }) => id)).not.toContain('zero')
    expect(
      check({ ...knife, amplifier: exampleAmplifiers.cmosRailToRail, calibration: { kind: 'zero' } }).verdict,
    ).toBe('fails')
  })
})
