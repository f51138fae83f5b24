import { describe, expect, it } from 'vitest'
import {
  acceptanceLimits,
  conformity,
  globalRisks,
  guardBand,
  normalDensity,
  normalProbability,
} from '../src/statistics/index.js'

describe('conformity', () => {
  const known = { estimate: 10, u: 2 }
  it('with one limit is a tail', () => {
    expect(conformity(known, { upper: 12 })).toBeCloseTo(0.841344746068543, 14)
    expect(conformity(known, { lower: 12 })).toBeCloseTo(0.158655253931457, 14)
  })

  it('with two limits is what is between', () => {
    expect(conformity(known, { lower: 8, upper: 12 })).toBeCloseTo(0.682689492137086, 14)
    expect(conformity(known, { lower: 6, upper: 12 })).toBeCloseTo(0.841344746068543 - 0.0227501319481792, 14)
  })

  it('keeps the digits of small chances on both sides', () => {
    const low = conformity({ estimate: 0, u: 1 }, { lower: 8, upper: 9 })
    expect(low / (normalProbability(-8) - normalProbability(-9))).toBeCloseTo(1, 12)
    expect(conformity({ estimate: 0, u: 1 }, { lower: -9, upper: -8 })).toBe(low)
  })

  it('without uncertainty is yes or no, the limit included', () => {
    expect(conformity({ estimate: 1, u: 0 }, { upper: 1 })).toBe(1)
    expect(conformity({ estimate: 1, u: 0 }, { lower: 1 })).toBe(1)
    expect(conformity({ estimate: 1.01, u: 0 }, { upper: 1 })).toBe(0)
  })

  it('refuses nonsense', () => {
    expect(() => conformity({ estimate: Number.NaN, u: 1 }, { upper: 1 })).toThrow(/estimate = NaN/)
    expect(() => conformity({ estimate: 1, u: -1 }, { upper: 1 })).toThrow(/u = -1: allowed is a finite number above 0/)
    expect(() => conformity(known, {})).toThrow(/at least one limit/)
    expect(() => conformity(known, { lower: 2, upper: 1 })).toThrow(/lower limit below upper limit/)
    expect(() => conformity(known, { lower: Number.NaN })).toThrow(/limits/)
  })
})

describe('guard bands', () => {
  it('are a multiple of u or made for a probability', () => {
    expect(guardBand(0.5, { multiple: 2 })).toBe(1)
    expect(guardBand(0.5, { multiple: -2 })).toBe(-1)
    // One-sided 95 %: 1.6449 (JCGM 106:2012, table 1, with more digits).
    expect(guardBand(2, { probability: 0.95 })).toBeCloseTo(3.28970725390294, 12)
  })

  it('move the limits that are there inwards', () => {
    expect(acceptanceLimits({ lower: 1, upper: 9 }, 1, { multiple: 2 })).toEqual({ lower: 3, upper: 7 })
    expect(acceptanceLimits({ upper: 9 }, 1, { multiple: 2 })).toEqual({ upper: 7 })
    expect(acceptanceLimits({ lower: 1 }, 1, { multiple: -1 })).toEqual({ lower: 0 })
  })

  it('give the probability they were made for at the acceptance limit', () => {
    const { upper } = acceptanceLimits({ upper: 5 }, 0.3, { probability: 0.99 })
    expect(conformity({ estimate: upper!, u: 0.3 }, { upper: 5 })).toBeCloseTo(0.99, 13)
  })

  it('refuse nonsense', () => {
    expect(() => guardBand(0, { multiple: 2 })).toThrow(/u = 0/)
    expect(() => guardBand(1, { multiple: Infinity })).toThrow(/multiple = Infinity/)
    expect(() => guardBand(1, { probability: 1 })).toThrow(/p = 1/)
    expect(() => acceptanceLimits({ lower: 1, upper: 2 }, 1, { multiple: 2 })).toThrow(/limits less the guard band/)
  })
})

describe('global risks', () => {
  const base = { process: { mean: 1500, u: 0.12 }, u: 0.04, tolerance: { lower: 1499.8, upper: 1500.2 } }

  /** The same by adding up the joint density of true and measured value on a fine grid. */
  function byGrid({ process, u, tolerance, acceptance = tolerance }: Parameters<typeof globalRisks>[0]) {
    const { lower = -Infinity, upper = Infinity } = tolerance
    const { lower: low = -Infinity, upper: high = Infinity } = acceptance
    const parts = 1000
    let [consumer, producer] = [0, 0]
    const cell = (from: number, n: number, step: number) => from + (n + 0.5) * step
    const [stepX, stepE] = [(16 * process.u) / parts, (16 * u) / parts]
    for (let i = 0; i < parts; i++) {
      const x = cell(process.mean - 8 * process.u, i, stepX)
      const weight = (normalDensity((x - process.mean) / process.u) / process.u) * stepX
      for (let j = 0; j < parts; j++) {
        const e = cell(-8 * u, j, stepE)
        const share = weight * (normalDensity(e / u) / u) * stepE
        const [good, accepted] = [lower <= x && x <= upper, low <= x + e && x + e <= high]
        if (accepted && !good) consumer += share
        if (!accepted && good) producer += share
      }
    }
    return { consumer, producer }
  }

  it.each([
    ['acceptance at the tolerance', base],
    ['a guard band', { ...base, acceptance: acceptanceLimits(base.tolerance, 0.04, { multiple: 2 }) }],
    ['a band outside', { ...base, acceptance: acceptanceLimits(base.tolerance, 0.04, { multiple: -2 }) }],
    ['one limit', { ...base, tolerance: { upper: 1500.1 } }],
    ['a process off centre', { ...base, process: { mean: 1500.1, u: 0.05 } }],
  ])('agree with a sum over a grid: %s', (_, inspection) => {
    const [found, expected] = [globalRisks(inspection), byGrid(inspection)]
    expect(Math.abs(found.consumer - expected.consumer)).toBeLessThan(1e-3)
    expect(Math.abs(found.producer - expected.producer)).toBeLessThan(1e-3)
  })

  it.each([1e-6, 1e-3, 0.03, 0.4, 0.6, 1, 3, 40, 1000])(
    'with a limit at the mean are the angle between the two normals, for u %d times that of the process',
    (ratio) => {
      // Of a pair of normal values, true and measured, a quadrant has its angle's share (Sheppard, 1899, from memory).
      const share = Math.atan(ratio) / (2 * Math.PI)
      for (const side of ['lower', 'upper']) {
        const process = { mean: 0, u: 0.12 }
        const { consumer, producer } = globalRisks({ process, u: 0.12 * ratio, tolerance: { [side]: 0 } })
        expect(Math.abs(consumer / share - 1)).toBeLessThan(1e-9)
        expect(Math.abs(producer / share - 1)).toBeLessThan(1e-9)
      }
    },
  )

  it.each([1e-6, 1e-4, 1e-3])('of a measurement %d as wide as the process are those of its edges', (r) => {
    // Beyond a limit l: ∫ φ(z) Φ((l - z)/r) dz = φ(l) r/√2π ± φ'(l) r²/4 + …, by parts.
    for (const limit of [0.5, 1.5, 2.5]) {
      const edge = (slope: number) => (normalDensity(limit) * r) / Math.sqrt(2 * Math.PI) + (slope * r * r) / 4
      const slope = limit * normalDensity(limit)
      const { consumer, producer } = globalRisks({ process: { mean: 0, u: 1 }, u: r, tolerance: { upper: limit } })
      expect(Math.abs(consumer / edge(-slope) - 1)).toBeLessThan(3 * r * r + 1e-9)
      expect(Math.abs(producer / edge(slope) - 1)).toBeLessThan(3 * r * r + 1e-9)
      const both = globalRisks({ process: { mean: 0, u: 1 }, u: r, tolerance: { lower: -limit, upper: limit } })
      expect(Math.abs(both.consumer / consumer / 2 - 1)).toBeLessThan(1e-9)
      expect(Math.abs(both.producer / producer / 2 - 1)).toBeLessThan(1e-9)
    }
  })

  it('add up: accepted and good, accepted and bad, rejected and good, rejected and bad', () => {
    const { nonconforming, consumer, producer } = globalRisks(base)
    // Measured values are normal too, with both variances.
    const u = Math.hypot(0.12, 0.04)
    const accepted = normalProbability(0.2 / u) - normalProbability(-0.2 / u)
    expect(1 - nonconforming - producer + consumer).toBeCloseTo(accepted, 12)
  })

  it.each([1e-9, 1e-4, 0.3, 1000])('add up with an uncertainty of %d', (u) => {
    const { nonconforming, consumer, producer } = globalRisks({ ...base, u })
    const both = Math.hypot(0.12, u)
    const accepted = normalProbability(0.2 / both) - normalProbability(-0.2 / both)
    expect(1 - nonconforming - producer + consumer).toBeCloseTo(accepted, 11)
  })

  it('has the consumer pay for a better price and the producer for a guard band', () => {
    const inward = globalRisks({ ...base, acceptance: acceptanceLimits(base.tolerance, 0.04, { multiple: 1 }) })
    const plain = globalRisks(base)
    expect(inward.consumer).toBeLessThan(plain.consumer)
    expect(inward.producer).toBeGreaterThan(plain.producer)
    expect(inward.nonconforming).toBe(plain.nonconforming)
  })

  it('refuses nonsense', () => {
    expect(() => globalRisks({ ...base, u: 0 })).toThrow(/u = 0/)
    expect(() => globalRisks({ ...base, process: { mean: 1, u: 0 } })).toThrow(/process.u = 0/)
    expect(() => globalRisks({ ...base, process: { mean: Number.NaN, u: 1 } })).toThrow(/process.mean = NaN/)
    expect(() => globalRisks({ ...base, tolerance: {} })).toThrow(/tolerance/)
    expect(() => globalRisks({ ...base, acceptance: { lower: 2, upper: 1 } })).toThrow(/acceptance/)
  })
})
