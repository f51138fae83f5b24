import { marginOf } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { divisionLoss, fullScaleCode, largestMultiplier, largestSum, wordSlack } from '../src/formulas/index.js'
import { type LinearIntegers, type LinearTarget, prove, railTarget, scaleLinear, scaleRational } from '../src/index.js'
import { quotientMargin } from './limits.js'

const integers = (more: Partial<LinearIntegers>): LinearIntegers => ({
  kind: 'linear',
  word: 32,
  codes: 1023,
  multiplier: 1,
  add: 0,
  shift: 0,
  base: 0,
  ...more,
})

describe('pitfalls of integers', () => {
  it('F01 overflow: every sub-expression must stay in the word, not only the result', () => {
    const target: LinearTarget = { kind: 'linear', line: [5000 / 1024, 0] }
    const wraps = prove(integers({ word: 16, multiplier: 5000, shift: 10 }), target)
    expect(wraps.fits).toBe(false)
    expect(wraps.headroom).toBe(65535 - 5000 * 1023)
    expect(wordSlack({ W_bits: 16, acc_max: wraps.highest })).toBe(wraps.headroom)
    expect(prove(integers({ multiplier: 5000, shift: 10 }), target).fits).toBe(true)
    expect(largestMultiplier({ W_bits: 16, code_max: 1023 })).toBe(64)
    const found = scaleLinear(target, { codes: 1023, word: 16 })
    if (found.kind !== 'possible') throw new Error(found.reason)
    expect(found.integers.multiplier).toBeLessThanOrEqual(64)
    // Sixteen bits are honest about what they cost here: some units, not half of one.
    expect(found.proof.worstError).toBeGreaterThan(1)
    expect(found.proof.worstError).toBeLessThan(5)
  })

  it('F02 divide before multiply: the quotient drops its fraction; here the division comes last', () => {
    expect(divisionLoss({ K_num: 5, K_den: 1024 })).toBe(1)
    expect(divisionLoss({ K_num: 5000, K_den: 1023 })).toBeCloseTo(0.1816, 4)
    const first = prove(integers({ multiplier: Math.trunc(5000 / 1023) }), { kind: 'linear', line: [5000 / 1023, 0] })
    expect(first.errors[0]).toBeCloseTo(4092 - 5000, 6)
    const rail = scaleRational(railTarget({ reference: 1.1, bits: 10, half: 0.5, unit: 1e-3 }), {
      codes: 1023,
      word: 32,
      largest: 6000,
    })
    expect(rail.kind === 'possible' && rail.proof.worstError).toBeLessThanOrEqual(0.51)
  })

  it('F03 rounding: a bare shift is a unit low, half added first is not; the step is 1/1024', () => {
    const target: LinearTarget = { kind: 'linear', line: [5000 / 1023, 0] }
    const bare = prove(integers({ multiplier: 5005, shift: 10 }), target)
    expect(bare.errors[0]).toBeCloseTo(-0.99, 2)
    expect(bare.errors[1]).toBeCloseTo(0.1, 2)
    const halved = prove(integers({ multiplier: 5005, shift: 10, add: 512 }), target)
    expect(halved.worstError).toBeLessThan(0.61)
    expect(halved.meanError - bare.meanError).toBeCloseTo(0.5, 1)
    // 1023 where 1024 belongs is a tenth of a per cent of full scale.
    const scale = prove(integers({ multiplier: 5005, shift: 10, add: 512 }), { kind: 'linear', line: [5000 / 1024, 0] })
    expect(scale.errors[1]).toBeGreaterThan(4.5)
    const own = scaleLinear({ kind: 'linear', line: [5000 / 1024, 0] }, { codes: 1023, word: 32 })
    expect(own.kind === 'possible' && own.proof.worstError).toBeLessThanOrEqual(0.5)
  })

  it('F04 accumulator: 64 ten-bit samples fit 16 bits, 65 do not, signed ends at 32', () => {
    const code_max = fullScaleCode({ N_bits: 10 })
    const slack = (M_avg: number, W_bits: number) => wordSlack({ W_bits, acc_max: largestSum({ M_avg, code_max }) })
    expect([slack(64, 16), slack(65, 16) < 0, slack(32, 15), slack(33, 15) < 0]).toEqual([63, true, 31, true])
    // The sum itself must fit the word, whatever is made of it: a multiplier of 0 does not hide that.
    const amperes: LinearTarget = { kind: 'linear', line: [0.016 / 65, 0] }
    expect(scaleLinear(amperes, { codes: 65 * 1023, word: 16 }).kind).toBe('impossible')
    expect(prove(integers({ word: 16, codes: 65 * 1023, multiplier: 0 }), amperes).fits).toBe(false)
  })

  it('F05 quotient near zero: below ten counts there is no reading, and code 0 divides by nothing', () => {
    const counts = (code_I: number) => marginOf(quotientMargin, { inputs: { code_I }, conditions: [] })
    expect(counts(9)).toMatchObject({ verdict: 'fails', slack: -1, catches: ['F05'] })
    expect(counts(10)).toMatchObject({ verdict: 'holds', slack: 0 })
    const gated = scaleRational(railTarget({ reference: 1.1, bits: 10, half: 0, unit: 1e-3 }), {
      codes: 1023,
      word: 32,
      largest: 200000,
      beyond: 4294967295,
      smallestCode: 10,
    })
    if (gated.kind !== 'possible') throw new Error(gated.reason)
    expect(gated.integers.from).toBe(10)
    expect(gated.proof).toMatchObject({ beyond: 10, fits: true })
    // Half a count of ten is 5 %.
    const open = scaleRational(railTarget({ reference: 1.1, bits: 10, half: 0, unit: 1e-3 }), {
      codes: 1023,
      word: 32,
      largest: 4000000,
    })
    if (open.kind !== 'possible') throw new Error(open.reason)
    expect(open.integers.from).toBe(1)
  })
})
