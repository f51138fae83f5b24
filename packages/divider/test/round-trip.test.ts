import { exampleConverters } from '@ohmward/adc'
import { extremes } from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chainFormulas, type DividerChoice, differenceFormulas, dividerModel, readingOf } from '../src/index.js'
import { cell, check, ideal, idealConverter } from './design.js'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** The indicated resistance with every part at its nominal value, at a load, a rail and a temperature. */
function indicated(choice: DividerChoice, R_x: number, V_rail = 3.6, T_d = 0): number {
  const { inputs, model, row } = dividerModel(choice, {
    rail: { from: 3, to: 4.2 },
    ambientCelsius: { from: 0, to: 50 },
  })
  const fixed: Record<string, Input> = { ...inputs, R_x, V_rail, T_d, a_ol: 0, m_ps: 0, m_cm: 0 }
  const at = Object.entries(fixed)
  const columns = Object.fromEntries(
    at.map(([name, input]) => [name, Float64Array.of(typeof input === 'object' ? input.nominal : Number(input))]),
  )
  return model(row(columns, 0))
}

const topologies = [
  { topology: 'load at ground', gainResistors: { feedback: 10e3, ground: 1e3, ratioDrift: 0 } },
  { topology: 'load at rail', gainResistors: { feedback: 10e3, ground: 1e3, ratioDrift: 0 } },
] as const

describe('with nominal parts the firmware finds the true resistance again', () => {
  for (const form of topologies)
    for (const wires of [2, 4] as const)
      it(`${form.topology}, ${wires} wires: to 1 part in 10^12`, () => {
        // A difference amplifier subtracts two voltages near the rail: the smaller the load's share, the fewer bits stay.
        const [least, most] = form.topology === 'load at ground' ? [0.2, 300] : [0.5, 150]
        const draws = fc.record({
          R_x: real(least, 5),
          V_rail: real(3, 4.2),
          R_ref: real(100, most),
          R_sw: real(0, 30),
          saturation: fc.oneof(fc.constant(0), real(0, 0.3)),
          lead: real(0, 0.5),
          pedestal: form.topology === 'load at ground' ? real(0, 0.1) : fc.constant(0),
          absolute: fc.boolean(),
          own: fc.boolean(),
          bits: fc.constantFrom(8, 10, 12, 16, 24),
        })
        fc.assert(
          fc.property(draws, ({ R_x, V_rail, R_ref, R_sw, saturation, lead, pedestal, absolute, own, bits }) => {
            const choice: DividerChoice = {
              ...ideal,
              ...form,
              wires,
              pedestal,
              reference: R_ref,
              surroundings: { ...ideal.surroundings, leadResistance: lead },
              excitationSwitch: { resistance: R_sw, saturation },
              ...(own && { excitation: 3.3 }),
              converter: { ...idealConverter, bits, ...(absolute && { reference: { kind: 'absolute', voltage: 3 } }) },
            }
            // The firmware knows the rail only where it needs none: excitation and reference alike, no saturation.
            const rail = absolute || own || saturation > 0 ? 3.6 : V_rail
            expect(Math.abs(indicated(choice, R_x, rail) - R_x)).toBeLessThanOrEqual(1e-12 * R_x)
          }),
          { numRuns: 60, seed: wires },
        )
      })
})

describe('the rail', () => {
  const at = (choice: DividerChoice) => [3, 3.3, 3.6, 4.2].map((rail) => indicated(choice, 0.7, rail))
  const spread = (values: number[]) => Math.max(...values) - Math.min(...values)

  it('cancels where it is excitation and reference', () => {
    for (const form of topologies) expect(spread(at({ ...ideal, ...form }))).toBeLessThan(1e-12)
    // As an input among others it makes no difference at all.
    const { inputs, model, row } = dividerModel(ideal, cell)
    const alone = { ...Object.fromEntries(Object.entries(inputs).map(([k, v]) => [k, nominal(v)])) }
    const { lower, upper } = extremes({ ...alone, V_rail: inputs['V_rail']! } as never, model as never, { row })
    expect(upper - lower).toBeLessThan(1e-12)
  })

  it('does not with a saturation voltage of the excitation switch: 0.2 V of 3 V is a loss of a fifteenth', () => {
    const choice = { ...ideal, excitationSwitch: { saturation: 0.2 } }
    const [low, , middle] = at(choice)
    expect(middle).toBeCloseTo(0.7, 9)
    // By hand: true share 0.7/47.7 of (V - 0.2), read over V, taken for a share of (3.6 - 0.2)/3.6.
    const share = ((0.7 / 47.7) * (2.8 / 3) * 3.6) / 3.4
    expect(low).toBeCloseTo((47 * share) / (1 - share), 9)
    expect(low! - 0.7).toBeLessThan(-0.008)
  })

  it('does not with a reference of its own: the reading follows the rail', () => {
    const converter = { ...idealConverter, reference: { kind: 'absolute', voltage: 3 } } as const
    const [low, , middle] = at({ ...ideal, converter })
    expect(middle).toBeCloseTo(0.7, 9)
    const share = ((0.7 / 47.7) * 3) / 3.6
    expect(low).toBeCloseTo((47 * share) / (1 - share), 9)
  })

  it('does not with an excitation of its own against the rail as reference', () => {
    const [low, , middle] = at({ ...ideal, excitation: 3.6 })
    expect(middle).toBeCloseTo(0.7, 9)
    const share = ((0.7 / 47.7) * 3.6) / 3
    expect(low).toBeCloseTo((47 * share) / (1 - share), 9)
  })

  it('moves a reference of its own with the temperature', () => {
    const reference = {
      kind: 'absolute',
      voltage: 3,
      drift: { nominal: -1e-3, lower: -1e-3 - 1e-12, upper: -1e-3 },
    } as const
    const drift = { ...reference, drift: { ...reference.drift, distribution: { kind: 'rectangular' } } } as const
    const value = indicated({ ...ideal, converter: { ...idealConverter, reference: drift } }, 0.7, 3.6, 20)
    const share = 0.7 / 47.7 / (1 - 20e-3)
    expect(value).toBeCloseTo((47 * share) / (1 - share), 9)
  })
})

/** What is the rail, or a reference of its own, comes before the chain. */
const onRail = ['V_exc', 'V_amp', 'V_ref']

describe('the derivation', () => {
  it('has a step for every formula of the chain, each with its numbers', () => {
    const steps = check(ideal).derivation
    expect(steps.map(({ symbol }) => symbol)).toEqual([...onRail, ...chainFormulas().map(({ symbol }) => symbol)])
    const current = steps.find(({ symbol }) => symbol === 'I_t')!
    expect(current.inputs).toEqual({ V_exc: 3.6, V_sat: 0, I_off: 0, I_o: 0, R_sh: 0, R_span: 0.7, R_out: 47 })
    expect(current.value).toBeCloseTo(3.6 / 47.7, 15)
    for (const { inputs, value, expression, source } of steps) {
      expect(Number.isFinite(value)).toBe(true)
      for (const number of Object.values(inputs)) expect(Number.isFinite(number)).toBe(true)
      expect(expression + source).not.toBe('')
    }
    expect(steps.at(-1)!.symbol).toBe('R_ind')
    expect(steps.at(-1)!.value).toBeCloseTo(0.7, 6)
  })

  it('has that of the difference amplifier, and the drift of an absolute reference', () => {
    const atRail = check({ ...ideal, topology: 'load at rail' })
    const difference = differenceFormulas().map(({ symbol }) => symbol)
    expect(atRail.derivation.map(({ symbol }) => symbol)).toEqual([...onRail, ...difference])
    const converter = { ...exampleConverters['12-bit converter with its own reference'] }
    const own = check({ ...ideal, converter })
    expect(own.derivation.map(({ symbol }) => symbol)).toEqual([...onRail, ...chainFormulas().map((f) => f.symbol)])
    expect(own.values).toMatchObject({ V_ref: 2.5, V_rail: 3.6, R_x: 0.7 })
  })
})

describe('a reading by hand', () => {
  it('7 mV of offset at 70 mA, gain 40, 10 bits of 3.3 V', () => {
    // Slide rule: 70 mA in 0.5 ohm are 35 mV, with the offset 42 mV, times 40 are 1.68 V: 521.3 counts of 1024.
    const [V, R] = [3.3, 3.3 / 0.07 - 0.5]
    const none = { V_sat: 0, R_sw: 0, alpha_ref: 0, R_thref: 0, d_m: 0, R_lead: 0, R_con: 0, R_ds: 0, I_off: 0 }
    const quiet = {
      V_emf: 0,
      I_o: 0,
      R_sh: 0,
      D_os: 0,
      V_ps: 3.3,
      m_ps: 0,
      m_cm: 0,
      V_n: 0,
      I_b: 0,
      I_os: 0,
      I_leak: 0,
      ...{ V_cms: 0, V_age: 0, V_add: 0, e_add: 0, s_set: 0, d_ref: 0, d_G: 0 },
    }
    const rest = { R_p: 0, alpha_G: 0, a_ol: 0, p_ped: 0, V_oh: 0.02, V_ol: 0.02, I_pin: 0, R_filt: 0, h_code: 0.5 }
    const codes = { e_gain: 0, e_offset: 0, e_INL: 0, e_q: 0, e_n: 0, N_bits: 10 }
    const nominal = { R_refn: R, R_swn: 0, R_leadn: 0, V_satn: 0, V_excn: V, V_refn: V, G_n: 40, p_pedn: 0 }
    const parts = {
      V_exc: V,
      V_amp: V,
      V_ref: V,
      T_d: 0,
      R_x: 0.5,
      kappa: 0,
      R_ref: R,
      V_os: 7e-3,
      R_f: 39e3,
      R_g: 1e3,
    }
    const y = readingOf({ ...none, ...quiet, ...rest, ...codes, ...nominal, ...parts })
    expect(y.I_t).toBeCloseTo(0.07, 12)
    expect(y.V_want).toBeCloseTo(1.68, 9)
    expect(y.code_out).toBeCloseTo((1.68 / 3.3) * 1024, 6)
    expect(y.R_ind).toBeCloseTo((R * 42) / (3300 - 42), 9)
  })
})

function nominal(input: unknown): number {
  return typeof input === 'object' ? (input as { nominal: number }).nominal : Number(input)
}
