import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import { checkHall, type HallChoice } from '../src/index.js'
import { at, cell, checked, knife, marginNamed, part, perfect, reach } from './design.js'

const room = at(3.3)
const one = { ...perfect, errors: [{ at: '6 A', allowed: '50 %' }], surroundings: { steadyField: 0 } } as const
const assumed = (more: object) => checkHall({ ...knife, ...more } as HallChoice, cell, { simulation: false })

describe('an error of a reading that may clip', () => {
  it('isn’t sure, and says where it clips', () => {
    // 4.2 V less 0.15 V hold 0.33 V + 200 mV/A · 12.5 A, times 4.2/3.3, to 4 parts in 100; one of 3.5 V at 15 A doesn't.
    const wide = { current: { from: 0, to: '15 A' }, sensor: { ...knife.sensor, ratedCurrent: '20 A' } }
    const a = checked({
      ...wide,
      errors: [
        { at: '3 A', allowed: '3 A' },
        { at: '15 A', allowed: '15 A' },
      ],
    })
    expect(marginNamed(a, 'span-high').verdict).toBe('fails')
    // The largest current clips; a small one is read as ever.
    expect(marginNamed(a, 'error-1').verdict).toBe('holds')
    const doubtful = marginNamed(a, 'error-2')
    expect(doubtful.verdict).toBe('not sure')
    expect(doubtful.slack).toBeGreaterThan(0)
    expect(doubtful.reason).toMatch(/may clip.*highest sensor output/)
  })

  it('isn’t sure either where the zero clips, or the pin', () => {
    const low = { ...knife.sensor, zeroOutput: '0.16 V', zeroError: '30 mV' }
    const zeroed = checked({ sensor: low, calibration: 'zero', errors: [{ at: '3 A', allowed: '90 %' }] })
    expect(marginNamed(zeroed, 'zero-span').verdict).toBe('fails')
    expect(marginNamed(zeroed, 'error-1')).toMatchObject({ verdict: 'not sure' })
    const reference = { kind: 'absolute', voltage: '1 V ±0.2 %' } as const
    const small = checked({ converter: { ...knife.converter, reference }, errors: [{ at: '6 A', allowed: '90 %' }] })
    expect(marginNamed(small, 'error-1').verdict).toBe('not sure')
    expect(marginNamed(small, 'error-1').reason).toContain('highest pin voltage')
  })
})

describe('what has not settled', () => {
  it('is in the error: a sensor as slow as its sheet allows, or as fast as can be', () => {
    // The filter alone misses exp(-t/RC) of 6 A; sensor and filter together more, by the convolution of both, summed here.
    const filter = { resistance: 990, capacitance: '10 nF' }
    const [wait, edge] = [30e-6, 1e-6]
    const tau = 1000 * 10e-9
    const slow = 1 / (2 * Math.PI * 120e3)
    const steps = 200_000
    const dt = (wait - edge) / steps
    let [s, v] = [0, 0]
    for (let i = 0; i < steps; i++) {
      s += ((1 - s) / slow) * dt
      v += ((s - v) / tau) * dt
    }
    const misses = { slow: 6 * (1 - v), fast: 6 * Math.exp(-(wait - edge) / tau) }
    expect(misses.slow).toBeGreaterThan(1.1 * misses.fast)
    const { extremes } = checked({ ...one, filter, wait }, room).budgets['I_1']!
    const step = 3.3 / 4096 / 0.2
    expect(6 - extremes.lower).toBeCloseTo(misses.slow + step / 2, 3)
    expect(6 - extremes.upper).toBeCloseTo(misses.fast - step / 2, 3)
  })

  it('counts what sampling misses: a charge of the sampling capacitor, given back through the filter', () => {
    const [R, C_f, C_sh, t] = [340, 1e-9, 8e-12, 1e-6]
    const converter = { ...perfect.converter, acquisitionTime: t, switchResistance: 0, samplingCapacitance: C_sh }
    const missing = reach({ ...one, converter, wait: 90e-6, filter: { resistance: 330, capacitance: C_f } }, room)
    // A switch of an ohm has given the charge at once; then the source has the rest of the time.
    const counts = ((4096 * C_sh) / (C_f + C_sh)) * Math.exp(-t / (R * (C_f + C_sh)))
    const step = 3.3 / 4096 / 0.2
    expect(missing / step).toBeCloseTo(counts + 0.5, 2)
    expect(counts).toBeGreaterThan(1)
  })
})

describe('ageing', () => {
  it('moves sensitivity and zero as its fields say', () => {
    const aged = (more: object) => part(Object.keys(more)[0]!, room, one, { ...one.sensor, ...more })
    expect(aged({ sensitivityAgeing: '1 %' })).toBeCloseTo(0.06, 5)
    expect(aged({ zeroAgeing: '10 mV' })).toBeCloseTo(0.05, 5)
  })

  it('of the zero goes with a zero that is read each time, and stays with one that was read once', () => {
    const left = (calibration: HallChoice['calibration']) =>
      part('zeroAgeing', room, { ...one, calibration }, { ...one.sensor, zeroAgeing: '10 mV' })
    expect(left('zero')).toBeCloseTo(0.05, 5)
    expect(left('zero each time')).toBeCloseTo(0, 9)
  })
})

describe('further errors of a data sheet', () => {
  it('move the reading: volts and amperes by themselves, shares by the current, drifts by the temperature', () => {
    const conditions = at(3.3, 65)
    const none = reach(one, conditions)
    const moved = (further: HallChoice['further']) => reach({ ...one, further }, conditions) - none
    const heat = checked(one, conditions).margins.find(({ id }) => id === 'conductor')!.worst - 25
    expect(moved([{ name: 'common mode', voltage: '4 mV' }])).toBeCloseTo(0.02, 5)
    expect(moved([{ name: 'strain', current: '30 mA' }])).toBeCloseTo(0.03, 5)
    expect(moved([{ name: 'outer reference', share: '0.5 %' }])).toBeCloseTo(0.03, 5)
    // 40 K of air, or what the conductor adds to it: the worse counts.
    const drift = moved([{ name: 'common mode', voltage: 0, perKelvin: 1e-4 }])
    expect(drift).toBeCloseTo((1e-4 * heat) / 0.2, 5)
    const both = moved([
      { name: 'common mode', voltage: '4 mV' },
      { name: 'strain', current: '30 mA', perKelvin: '1 mA/K' },
      { name: 'outer reference', share: '0.5 %', perKelvin: '50 ppm/K' },
    ])
    expect(both).toBeCloseTo(0.02 + 0.03 + 1e-3 * heat + 0.03 + 6 * 50e-6 * heat, 4)
  })

  it('are named, stay through any zero, and reach every row', () => {
    const further = [{ name: 'common mode of the frame', voltage: '40 mV' }]
    const a = checked({ further, calibration: 'zero each time' })
    expect(a.assumptions.join(' ')).toContain('common mode of the frame (V_add1): ±40 mV')
    const line = a.budgets['I_2']!.linear.contributions.find(({ input }) => input === 'V_add1')!
    expect(Math.abs(line.contribution)).toBeGreaterThan(0.1)
    const top = (more: object) => marginNamed(checked(more), 'span-high').slack
    expect(top({}) - top({ further })).toBeGreaterThan(0.036)
    expect(a.derivation.find(({ symbol }) => symbol === 'V_add')!.expression).toBe('V_add1')
  })

  it.each<[string, object]>([
    ['further[0]', { name: 'nothing' }],
    ['further[0]', { name: 'two', voltage: 1e-3, share: 0.01 }],
    ['further[0].name', { name: '', voltage: 1e-3 }],
    ['further[0].voltage', { name: 'x', voltage: '5 A' }],
    ['further[0].perKelvin', { name: 'x', share: 0.01, perKelvin: '1 mV/K' }],
    ['further[0].share', { name: 'x', share: 2 }],
  ])('%s is refused', (field, error) => {
    expect(refusalOf(() => assumed({ further: [error] })).field).toBe(field)
  })
})
