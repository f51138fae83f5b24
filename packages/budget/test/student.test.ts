import { jStat } from 'jstat'
import { erf, gamma } from 'mathjs'
import { describe, expect, it } from 'vitest'
import {
  normalDensity,
  normalProbability,
  normalQuantile,
  studentProbability,
  studentQuantile,
} from '../src/statistics/index.js'

const relative = (value: number, expected: number) => Math.abs(value / expected - 1)

/** Simpson's rule: an independent, plain route to a probability. */
function simpson(f: (x: number) => number, from: number, to: number, parts = 4000): number {
  const h = (to - from) / parts
  let sum = f(from) + f(to)
  for (let n = 1; n < parts; n++) sum += (n % 2 ? 4 : 2) * f(from + n * h)
  return (sum * h) / 3
}

describe('normal distribution', () => {
  it('agrees with the error function of mathjs in the middle', () => {
    for (let z = -3; z <= 3; z += 0.01) expect(normalProbability(z)).toBeCloseTo((1 + erf(z / Math.SQRT2)) / 2, 14)
  })

  // Abramowitz and Stegun, table 26.1 and 26.2, from memory.
  it.each([
    [1, 0.841344746068543],
    [2, 0.977249868051821],
    [3, 0.99865010196837],
    [-1, 0.158655253931457],
  ])('has the tabulated probability at %d', (z, p) => {
    expect(relative(normalProbability(z), p)).toBeLessThan(3e-15)
  })

  it('keeps its digits in the tails', () => {
    // Bounds of the tail by its asymptotic series, which alternates (Abramowitz and Stegun, 26.2.12).
    for (const z of [5, 8, 15, 30]) {
      const q = normalDensity(z) / z
      const [a, b, c] = [1 / z ** 2, 3 / z ** 4, 15 / z ** 6]
      expect(normalProbability(-z)).toBeGreaterThan(q * (1 - a + b - c))
      expect(normalProbability(-z)).toBeLessThan(q * (1 - a + b))
    }
  })

  it('joins its two methods and its three ranges without a step', () => {
    for (const z of [-1.5, 1.5]) {
      const [a, b] = [normalProbability(z - 1e-9), normalProbability(z + 1e-9)]
      expect(relative((b - a) / 2e-9, normalDensity(z))).toBeLessThan(1e-6)
    }
    for (const p of [0.075, 0.925, Math.exp(-25)]) {
      expect(relative(normalQuantile(p * (1 + 1e-13)), normalQuantile(p * (1 - 1e-13)))).toBeLessThan(1e-11)
    }
  })

  it('is inverted from one end to the other', () => {
    for (let n = 1; n < 1000; n++)
      expect(relative(normalProbability(normalQuantile(n / 1000)), n / 1000)).toBeLessThan(1e-14)
    for (let n = 1; n < 300; n++)
      expect(relative(normalProbability(normalQuantile(10 ** -n)), 10 ** -n)).toBeLessThan(2e-12)
    expect(normalQuantile(0.5)).toBe(0)
    expect(normalQuantile(0.25)).toBe(-normalQuantile(0.75))
  })

  it('refuses what is no probability', () => {
    for (const p of [0, 1, -0.1, 1.1, Number.NaN])
      expect(() => normalQuantile(p)).toThrow(/p = .*more than 0 and less than 1/)
  })
})

describe("Student's distribution", () => {
  // Closed forms of the quantile for 1, 2 and 4 degrees of freedom (W. T. Shaw, 2006, from memory; 1 is Cauchy's).
  const closed: [number, (p: number) => number][] = [
    [1, (p) => Math.tan(Math.PI * (p - 0.5))],
    [2, (p) => (2 * p - 1) * Math.sqrt(2 / (4 * p * (1 - p)))],
    [
      4,
      (p) => {
        const a = Math.sqrt(4 * p * (1 - p))
        return Math.sign(p - 0.5) * 2 * Math.sqrt(Math.cos(Math.acos(a) / 3) / a - 1)
      },
    ],
  ]
  it.each(closed)('has the closed form of %d degrees of freedom', (dof, quantile) => {
    for (const p of [0.01, 0.1, 0.3, 0.4, 0.6, 0.7, 0.74, 0.76, 0.9, 0.975, 0.995]) {
      expect(relative(studentQuantile(p, dof), quantile(p))).toBeLessThan(2e-14)
      expect(relative(studentProbability(quantile(p), dof), p)).toBeLessThan(2e-14)
    }
  })

  it('is the integral of its density, for fractions too', () => {
    for (const dof of [0.7, 1.5, 3, 7.25, 16.7, 60, 400]) {
      const scale = dof < 300 ? gamma((dof + 1) / 2) / gamma(dof / 2) / Math.sqrt(dof * Math.PI) : Number.NaN
      const density = (t: number) => (1 + (t * t) / dof) ** (-(dof + 1) / 2)
      // Beyond mathjs' gamma function the scale follows from the whole area.
      const norm = Number.isNaN(scale) ? 1 / (2 * simpson(density, 0, 40, 40_000)) : scale
      for (const t of [0.1, 0.5, 1, 2, 3.5]) {
        const expected = 0.5 + norm * simpson(density, 0, t)
        expect(relative(studentProbability(t, dof), expected)).toBeLessThan(1e-12)
        expect(studentProbability(-t, dof)).toBeCloseTo(1 - expected, 12)
      }
    }
  })

  it('agrees with jstat to the 2e-7 that jstat is good for', () => {
    for (const dof of [1, 3, 5, 9, 16, 30, 120])
      for (const p of [0.6, 0.9, 0.95, 0.975, 0.995]) {
        expect(relative(studentQuantile(p, dof), jStat.studentt.inv(p, dof))).toBeLessThan(1e-6)
      }
  })

  it('is inverted everywhere', () => {
    for (const dof of [0.5, 1, 1.5, 2.5, 4, 10, 33.3, 500, 1e4, 9e4, 2e5, 3e6]) {
      for (const p of [1e-30, 1e-9, 0.001, 0.2, 0.249, 0.251, 0.4, 0.499, 0.6, 0.9, 0.999]) {
        expect(relative(studentProbability(studentQuantile(p, dof), dof), p), `${p}, ${dof}`).toBeLessThan(3e-11)
      }
    }
    expect(studentQuantile(0.5, 7)).toBe(0)
    expect(studentProbability(0, 7)).toBe(0.5)
  })

  it('changes method at large degrees of freedom without a step and ends in the normal distribution', () => {
    for (const [dof, tolerance] of [
      [1e5, 1e-11],
      [1e6, 1e-13],
    ] as const)
      for (const p of [0.7, 0.975, 0.9999]) {
        const [below, above] = [studentQuantile(p, dof * (1 - 1e-9)), studentQuantile(p, dof * (1 + 1e-9))]
        expect(relative(below, above)).toBeLessThan(tolerance)
        expect(
          relative(studentProbability(below, dof * (1 - 1e-9)), studentProbability(below, dof * (1 + 1e-9))),
        ).toBeLessThan(1e-11)
      }
    expect(studentQuantile(0.975, Infinity)).toBe(normalQuantile(0.975))
    expect(studentProbability(1.3, Infinity)).toBe(normalProbability(1.3))
  })

  it('refuses degrees of freedom that are none, and quantiles that no number holds', () => {
    for (const dof of [0, -1, Number.NaN]) {
      expect(() => studentQuantile(0.9, dof)).toThrow(/degreesOfFreedom = .*at least 1e-6/)
      expect(() => studentProbability(0.9, dof)).toThrow(/degreesOfFreedom = .*at least 1e-6/)
    }
    expect(() => studentQuantile(1e-9, 0.001)).toThrow(/enough for a finite quantile/)
    expect(() => studentQuantile(1, 5)).toThrow(/p = 1/)
  })
})
