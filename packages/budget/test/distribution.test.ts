import type { Distribution, Spread } from '@ohmward/quantity'
import { jStat } from 'jstat'
import { describe, expect, it } from 'vitest'
import { compare, propagate, simulate } from '../src/index.js'
import { fromNormal, fromUniform, shapeOf } from '../src/statistics/distribution.js'

const spread = (distribution: Distribution): Spread => ({ nominal: 1.5, lower: 1, upper: 3, distribution })

/** Distribution function of x = 2 + y, y from -1 to 1, written down from the densities of JCGM 101:2008, 6.4. */
const exact: Record<string, [Distribution, (y: number) => number, variance: number]> = {
  rectangular: [{ kind: 'rectangular' }, (y) => (y + 1) / 2, 1 / 3],
  triangular: [{ kind: 'triangular' }, (y) => (y < 0 ? (1 + y) ** 2 / 2 : 1 - (1 - y) ** 2 / 2), 1 / 6],
  trapezoidal: [
    { kind: 'trapezoidal', top: 0.4 },
    (y) => {
      const ramp = (z: number) => (1 - z) ** 2 / (2 * (1 - 0.4 ** 2))
      return y < -0.4 ? ramp(-y) : y > 0.4 ? 1 - ramp(y) : 0.5 + y / 1.4
    },
    (1 + 0.4 ** 2) / 6,
  ],
  arcsine: [{ kind: 'arcsine' }, (y) => 0.5 + Math.asin(y) / Math.PI, 1 / 2],
  normal: [{ kind: 'normal', coverage: 2.5 }, (y) => jStat.normal.cdf(y, 0, 0.4), 0.16],
  t: [{ kind: 't', coverage: 4, degreesOfFreedom: 6 }, (y) => jStat.studentt.cdf(y * 4, 6), (0.25 ** 2 * 6) / 4],
}

describe.each(Object.entries(exact))('%s (JCGM 101:2008, 6.4)', (kind, [distribution, probability, variance]) => {
  const shape = shapeOf(spread(distribution))

  it('inverts its distribution function', () => {
    const p = Float64Array.from([1e-6, 0.001, 0.1, 0.2, 0.214, 0.25, 0.4, 0.5, 0.6, 0.75, 0.8, 0.93, 0.999, 1 - 1e-6])
    const x = p.slice()
    fromUniform(shape, x, x.length)
    x.forEach((value, i) => {
      expect(Math.abs(probability(value - 2) - p[i]!)).toBeLessThan(kind === 't' ? 1e-6 : 1e-9)
    })
  })

  it('keeps the probability of a normal deviate', () => {
    const z = Float64Array.from([-3.5, -1.2, 0, 0.3, 2, 3.9])
    const x = z.slice()
    fromNormal(shape, x, x.length)
    x.forEach((value, i) => {
      expect(Math.abs(probability(value - 2) - jStat.normal.cdf(z[i]!, 0, 1))).toBeLessThan(kind === 't' ? 1e-6 : 1e-9)
    })
  })

  if (kind !== 'normal' && kind !== 't')
    it('is the same however well its width is known: degrees of freedom belong to what is normal', () => {
      const p = Float64Array.from([0.001, 0.2, 0.5, 0.93])
      const x = p.slice()
      fromUniform(shapeOf({ ...spread(distribution), degreesOfFreedom: 3 }), x, x.length)
      x.forEach((value, i) => {
        expect(Math.abs(probability(value - 2) - p[i]!)).toBeLessThan(1e-9)
      })
    })

  it.each(['plain', 'quasi'] as const)('is drawn with its expectation, variance and quantiles (%s)', (method) => {
    const trials = 200_000
    const s = simulate({ x: spread(distribution) }, ({ x }) => x, { method, trials, seed: 4, limits: { upper: 1.6 } })
    expect(Math.abs(s.mean - 2)).toBeLessThan(4 * Math.sqrt(variance / trials))
    expect(s.u ** 2 / variance).toBeCloseTo(1, 1)
    expect(probability(s.interval[0] - 2)).toBeCloseTo(0.025, 2.5)
    expect(probability(s.interval[1] - 2)).toBeCloseTo(0.975, 2.5)
    expect(Math.abs(s.within! - probability(-0.4))).toBeLessThan(5e-3)
    if (kind !== 'normal' && kind !== 't') {
      expect(s.minimum).toBeGreaterThanOrEqual(1)
      expect(s.maximum).toBeLessThanOrEqual(3)
    }
  })
})

it.each([1, 2.5, 30])(
  't with %d degrees of freedom follows a statistics library far into the tails',
  (degreesOfFreedom) => {
    const shape = shapeOf({
      nominal: 0,
      lower: -1,
      upper: 1,
      distribution: { kind: 't', coverage: 1, degreesOfFreedom },
    })
    const p = Float64Array.from([1e-5, 1e-3, 0.02, 0.3, 0.7, 0.99])
    const x = p.slice()
    fromUniform(shape, x, x.length)
    x.forEach((value, i) => {
      const tail = Math.min(p[i]!, 1 - p[i]!)
      expect(Math.abs(jStat.studentt.cdf(value, degreesOfFreedom) - p[i]!) / tail).toBeLessThan(1e-5)
    })
  },
)

describe('a normal input with degrees of freedom (JCGM 101:2008, 6.4.9.7: scaled and shifted t)', () => {
  // Stated as 10 ± 2 at k = 2: the scale is 1, the expectation 10, the variance nu / (nu - 2).
  const stated = (degreesOfFreedom: number): Spread => ({
    nominal: 10,
    lower: 8,
    upper: 12,
    distribution: { kind: 'normal', coverage: 2 },
    degreesOfFreedom,
  })

  it.each([3, 5, 9, 50])('has the variance of the standard and the quantiles of t (%d)', (dof) => {
    const s = simulate({ x: stated(dof) }, ({ x }) => x, { method: 'quasi', trials: 500_000 })
    expect(s.mean).toBeCloseTo(10, 2)
    // The fourth moment of t is infinite up to 4 degrees of freedom: its sampled variance settles slowly.
    if (dof > 4) expect(s.u ** 2 / (dof / (dof - 2))).toBeCloseTo(1, 2)
    const k = jStat.studentt.inv(0.975, dof)
    expect(s.interval[0]).toBeCloseTo(10 - k, 2)
    expect(s.interval[1]).toBeCloseTo(10 + k, 2)
  })

  it('is as wide simulated as by the linear budget, and the comparison says so', () => {
    const inputs = { x: stated(3) }
    const linear = propagate(inputs, ({ x }) => 2 * x)
    const simulated = simulate(inputs, ({ x }) => 2 * x, { trials: 400_000, method: 'quasi' })
    // Table G.2 of JCGM 100:2008: 3.18 for 3 degrees of freedom and 95 %.
    expect(linear.expanded).toBeCloseTo(2 * 3.18, 1)
    expect((simulated.interval[1] - simulated.interval[0]) / 2).toBeCloseTo(2 * 3.18, 1)
    expect(compare(linear, simulated, { digits: 1 }).agrees).toBe(true)
  })

  it('keeps its own degrees of freedom among correlated inputs and without end it is normal', () => {
    const s = simulate({ x: stated(Number.POSITIVE_INFINITY) }, ({ x }) => x, { method: 'quasi', trials: 200_000 })
    expect(s.interval[1]).toBeCloseTo(10 + jStat.normal.inv(0.975, 0, 1), 2)
    const both = { a: stated(4), b: stated(4) }
    const correlations = [{ between: ['a', 'b'] as const, coefficient: 1 }]
    const same = simulate(both, ({ a, b }) => a + b, { correlations, method: 'quasi', trials: 200_000 })
    expect(same.interval[1]).toBeCloseTo(20 + 2 * jStat.studentt.inv(0.975, 4), 1)
  })
})
