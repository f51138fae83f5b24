import { describe, expect, it } from 'vitest'
import { type ChainInputs, chainFormulas, chainOf, readingOf, workspace } from '../src/chain/follow.js'
import { type Topology, topologies } from '../src/chain/topology.js'
import { readingSlope } from '../src/formulas/index.js'

/** A 3.3 V part of 200 mV/A, 12 bits, no error at all. */
const ideal: ChainInputs = {
  V_rail: 3.3,
  V_s: 3.3,
  V_ref0: 3.3,
  TC_ref: 0,
  T_d: 0,
  I_x: 4,
  D_x: 1,
  V_s0: 3.3,
  V_above: 2.2,
  V_below: 0.6,
  V_q0: 0.33,
  S_0: 0.2,
  V_oe: 0,
  D_oe: 0,
  m_q: 0,
  e_S: 0,
  e_Sa: 0,
  e_add: 0,
  TC_S: 0,
  m_S: 0,
  V_L: 0,
  V_h: 0,
  V_B: 0,
  V_nb: 0,
  V_n: 0,
  V_oa: 0,
  V_add: 0,
  n_miss: 0,
  V_ol: 0.1,
  V_oh: 0.1,
  R_o: 0,
  R_t: 3300,
  R_b: 4700,
  R_filt: 1000,
  C_f: 1e-9,
  t_set: Number.POSITIVE_INFINITY,
  tau_s: 1e-18,
  w_x: 0,
  V_lk: 0,
  N_bits: 12,
  h_code: 0.5,
  e_gain: 0,
  e_offset: 0,
  e_INL: 0,
  e_q: 0,
  e_n: 0,
  V_qn: 0.33,
  S_n: 0.2,
  k_dn: 1,
  V_refn: 3.3,
}

/** Supply and reference stand apart, so that each can be moved by itself. */
const plain: Topology = { output: 'ratiometric', supply: 'own', reference: 'own', reading: 'on-window', divided: false }
const all = topologies
const I = (more: Partial<ChainInputs>, topology = plain) => readingOf({ ...ideal, ...more }, topology).I_ind

describe('round trip with nominal parts', () => {
  it.each(all)(
    'closes to 1 part in 10¹²: $output, supply $supply, reference $reference, $reading, divided $divided',
    (topology) => {
      const k_dn = topology.divided ? 4700 / 8000 : 1
      for (const I_x of [0, 0.1, 1, 4, 7]) {
        const D_x = topology.reading === 'averaged' ? 0.6 : 1
        expect(Math.abs(I({ I_x, D_x, k_dn }, topology) - I_x)).toBeLessThan(7e-12)
      }
    },
  )
})

describe('rail', () => {
  it('cancels for a ratiometric sensor on the converter’s reference, by itself', () => {
    for (const V of [3, 3.6, 4.2]) expect(I({ V_s: V, V_ref0: V })).toBeCloseTo(4, 11)
  })

  it('is one variable for all that hangs on it', () => {
    const onRail = { ...plain, supply: 'rail', reference: 'rail' } as const
    for (const V_rail of [3, 3.6, 4.2]) {
      const { V_s, V_ref, I_ind } = readingOf({ ...ideal, V_rail }, onRail)
      expect([V_s, V_ref]).toEqual([V_rail, V_rail])
      expect(I_ind).toBeCloseTo(4, 11)
    }
  })

  it('enters whole for a fixed sensor, and for a ratiometric one against a reference of its own', () => {
    const code = ((0.33 + 0.8) / 4.2) * 4096
    const k = 3.3 / 4096 / 0.2
    const zero = (0.33 / 3.3) * 4096
    expect(I({ V_s: 4.2, V_ref0: 4.2 }, { ...plain, output: 'fixed' })).toBeCloseTo((code - zero) * k, 10)
    const up = (((0.33 + 0.8) * (3.5 / 3.3)) / 3.3) * 4096
    expect(I({ V_s: 3.5 })).toBeCloseTo((up - zero) * k, 10)
  })
})

describe('each error, in the current that it makes', () => {
  it.each<[string, Partial<ChainInputs>, number]>([
    ['offset over sensitivity', { V_oe: 0.01 }, 0.05],
    ['drift of the zero over 40 K', { D_oe: 1e-4, T_d: 40 }, 0.02],
    ['sensitivity, a share of the current', { e_S: 0.01 }, 0.04],
    ['drift of the sensitivity over 40 K', { TC_S: 2e-4, T_d: 40 }, 0.032],
    ['nonlinearity', { V_L: 0.004 }, 0.02],
    ['hysteresis', { V_h: -0.004 }, -0.02],
    ['steady field', { V_B: 0.002 }, 0.01],
    ['neighbour', { V_nb: 0.002 }, 0.01],
    ['noise', { V_n: 0.002 }, 0.01],
    ['leakage, which pulls down', { V_lk: 0.002 }, -0.01],
    ['gain of the converter, on zero and current alike', { e_gain: 0.001 }, 0.001 * (4 + 0.33 / 0.2)],
    ['one count of offset', { e_offset: 1 }, 3.3 / 4096 / 0.2],
    ['one count of nonlinearity', { e_INL: 1 }, 3.3 / 4096 / 0.2],
    ['half a count of rounding', { e_q: 0.5 }, 3.3 / 8192 / 0.2],
    ['one count of noise', { e_n: 1 }, 3.3 / 4096 / 0.2],
    ['unsettled: a time constant leaves 36.8 % of the step', { t_set: 1e-6 }, -4 * Math.exp(-1)],
  ])('%s', (_, more, expected) => {
    expect(I(more) - 4).toBeCloseTo(expected, 9)
  })

  it('ratiometry is an error only where the supply isn’t the rated one', () => {
    expect(I({ m_q: 0.02, m_S: 0.02 })).toBeCloseTo(4, 11)
    // At 4.2 V, 0.9 V of the 2.2 V to the end of the rated supply: so much of the 2 %.
    const share = (0.02 * 0.9) / 2.2
    expect(I({ V_s: 4.2, V_ref0: 4.2, m_q: 0.02 }) - 4).toBeCloseTo((0.33 * share) / 0.2, 9)
    expect(I({ V_s: 4.2, V_ref0: 4.2, m_S: 0.02 }) - 4).toBeCloseTo(4 * share, 9)
    const fixed = { ...plain, output: 'fixed' } as const
    expect(I({ V_s: 4.2, m_q: 0.02 }, fixed) - 4).toBeCloseTo((0.33 * share) / 0.2, 9)
    expect(I({ V_s: 4.2, m_S: 0.02 }, fixed) - 4).toBeCloseTo(4 * share, 9)
  })

  it('shifts follow the supply of a ratiometric sensor, and not that of a fixed one', () => {
    expect(I({ V_s: 4.2, V_ref0: 4.2, V_L: 0.01 }) - 4).toBeCloseTo(0.05, 9)
    const fixed = { ...plain, output: 'fixed' } as const
    expect(I({ V_s: 4.2, V_L: 0.01 }, fixed) - 4).toBeCloseTo(0.05, 9)
  })
})

describe('limits', () => {
  it('the output stands still at its end, and the straight line goes on', () => {
    expect(I({ I_x: 30 })).toBeCloseTo((3.2 - 0.33) / 0.2, 9)
    expect(I({ I_x: -30 })).toBeCloseTo((0.1 - 0.33) / 0.2, 9)
    const y = Object.assign(workspace(), { ...ideal, I_x: 30 })
    expect(chainOf(plain).followLine(y)).toBeCloseTo(30, 9)
  })

  it.each(all)(
    'the slope is that of the straight line: $output, supply $supply, reference $reference, $reading, divided $divided',
    (topology) => {
      const y = Object.assign(workspace(), { ...ideal, e_S: 0.02, e_gain: -0.01, V_oe: 0.01, t_set: 2e-6, V_s: 3.9 })
      const { followLine } = chainOf(topology)
      y.I_x = 7
      const high = followLine(y)
      y.I_x = 2
      expect((high - followLine(y)) / 5).toBeCloseTo(readingSlope(y), 12)
    },
  )

  it('the code stands still at full scale, with its half count', () => {
    expect(readingOf({ ...ideal, V_s: 5, V_s0: 5, I_x: 20 }, plain).code_out).toBe(4095.5)
  })

  it('an averaging filter averages what the sensor clipped, not what it should have put out', () => {
    // 20 A for half the time are 10 A in the mean, but the sensor ends at 14.35 A.
    const averaged = { ...plain, reading: 'averaged' } as const
    expect(I({ I_x: 10, D_x: 0.5 }, averaged)).toBeCloseTo((0.5 * (3.2 - 0.33)) / 0.2, 9)
    expect(I({ I_x: 5, D_x: 0.5, w_x: 0.01 }, averaged)).toBeCloseTo(5.1, 9)
  })
})

describe('divider', () => {
  const divided = { ...plain, divided: true }
  it('loads with its own ratio and the sensor’s resistance, and its parallel value charges the filter', () => {
    const x = readingOf({ ...ideal, R_o: 100, k_dn: 4700 / 8100 }, divided)
    expect(x.k_d).toBeCloseTo(4700 / 8100, 12)
    expect(x.R_src).toBeCloseTo((3400 * 4700) / 8100 + 1000, 9)
    expect(x.tau_f).toBeCloseTo(x.R_src * 1e-9, 18)
    expect(x.I_ind).toBeCloseTo(4, 10)
    expect(readingOf({ ...ideal, R_o: 100 }, plain).R_src).toBe(1100)
  })
})

describe('formulas', () => {
  it.each(all)(
    'are listed in the order of calculation: $output, supply $supply, reference $reference, $reading, divided $divided',
    (topology) => {
      const given = new Set(Object.keys(ideal))
      for (const g of chainOf(topology).formulas()) {
        for (const symbol of Object.keys(g.inputs)) {
          const free = given.has(symbol) || (symbol === 'k_d' && !topology.divided)
          expect(free, `${g.symbol} needs ${symbol}`).toBe(true)
        }
        given.add(g.symbol)
        expect(chainFormulas()).toContain(g)
      }
      expect(given.has('I_ind')).toBe(true)
    },
  )
})

describe('an input that is missing', () => {
  it('is named, where the topology needs it', () => {
    const { R_t: _, ...rest } = ideal
    expect(readingOf(rest, plain).I_ind).toBeCloseTo(4, 11)
    expect(() => readingOf(rest, { ...plain, divided: true })).toThrow('R_t')
  })
})
