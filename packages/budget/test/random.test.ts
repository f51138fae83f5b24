import { jStat } from 'jstat'
import { describe, expect, it } from 'vitest'
import { fillNormal, fillUniform, stream, uniform } from '../src/sampling/random.js'

/** Largest distance between the values' and the exact distribution function, times √n (Kolmogorov and Smirnov). */
const kolmogorov = (values: Float64Array, probability: (x: number) => number): number => {
  const sorted = values.slice().sort()
  const n = sorted.length
  const gaps = Array.from(sorted, (x, i) => Math.max((i + 1) / n - probability(x), probability(x) - i / n))
  return Math.sqrt(n) * gaps.reduce((most, gap) => Math.max(most, gap), 0)
}

const filled = (fill: typeof fillNormal, n: number, seed = 1, index = 0) => {
  const values = new Float64Array(n)
  fill(stream(seed, index), values, n)
  return values
}
const mean = (values: ArrayLike<number>) => Array.from(values).reduce((sum, x) => sum + x, 0) / values.length

describe('the stream of random numbers', () => {
  it('is sfc32, computed here again in unlimited integers (C. Doty-Humphrey, PractRand; definition from memory)', () => {
    const mask = 0xffffffffn
    let [a, b, c, d] = [7n, 0n, 3n, 1n]
    const next = () => {
      const word = (a + b + d) & mask
      d = (d + 1n) & mask
      a = b ^ (b >> 9n)
      b = (c + (c << 3n)) & mask
      c = ((((c << 21n) | (c >> 11n)) & mask) + word) & mask
      return (Number(word) + 0.5) / 2 ** 32
    }
    for (let i = 0; i < 16; i++) next()
    expect(Array.from(filled(fillUniform, 200, 7, 3))).toEqual(Array.from({ length: 200 }, next))
  })

  it('takes the whole of a seed beyond 32 bits', () => {
    expect(uniform(stream(5, 0))).not.toBe(uniform(stream(5 + 2 ** 32, 0)))
    expect(uniform(stream(5, 0))).not.toBe(uniform(stream(5, 1)))
    expect(uniform(stream(5, 0))).toBe(uniform(stream(5, 0)))
  })

  it.each([1, 2, 12345])('is uniform (seed %d; 1.95 is exceeded once in a thousand)', (seed) => {
    expect(kolmogorov(filled(fillUniform, 50_000, seed), (x) => x)).toBeLessThan(1.95)
  })

  it('never gives 0 or 1', () => {
    const values = filled(fillUniform, 200_000)
    expect(values.every((x) => x > 0 && x < 1)).toBe(true)
  })

  it('has nothing to do with its neighbours nor with other streams', () => {
    const n = 100_000
    const values = filled(fillUniform, n)
    const other = filled(fillUniform, n, 1, 1)
    const bound = (4 / 12) * n ** -0.5
    for (const lag of [1, 2, 7]) {
      expect(Math.abs(mean(values.subarray(lag).map((x, i) => (x - 0.5) * (values[i]! - 0.5))))).toBeLessThan(bound)
    }
    expect(Math.abs(mean(values.map((x, i) => (x - 0.5) * (other[i]! - 0.5))))).toBeLessThan(bound)
  })
})

describe('normal deviates', () => {
  it.each([1, 2, 12345])('follow the normal distribution of a statistics library (seed %d)', (seed) => {
    const values = filled(fillNormal, 50_000, seed)
    expect(kolmogorov(values, (x) => jStat.normal.cdf(x, 0, 1))).toBeLessThan(1.95)
  })

  it('have the moments of N(0, 1), each within four standard errors of a million', () => {
    const values = filled(fillNormal, 1_000_000)
    const moment = (k: number) => mean(values.map((x) => x ** k))
    expect(Math.abs(moment(1))).toBeLessThan(0.004)
    expect(Math.abs(moment(2) - 1)).toBeLessThan(4 * Math.sqrt(2e-6))
    expect(Math.abs(moment(3))).toBeLessThan(4 * Math.sqrt(15e-6))
    expect(Math.abs(moment(4) - 3)).toBeLessThan(4 * Math.sqrt(96e-6))
  })

  it('reach into the tail beyond the last layer as often as they should, on both sides', () => {
    const values = filled(fillNormal, 2_000_000, 3)
    for (const border of [3, 3.6541528853610088, 4.2]) {
      const wanted = 2_000_000 * jStat.normal.cdf(-border, 0, 1)
      const above = values.filter((x) => x > border).length
      const below = values.filter((x) => x < -border).length
      expect(Math.abs(above - wanted)).toBeLessThan(4 * Math.sqrt(wanted))
      expect(Math.abs(below - wanted)).toBeLessThan(4 * Math.sqrt(wanted))
    }
  })
})
