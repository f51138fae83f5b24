import type { Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { propagate, simulate } from '../src/index.js'
import { probabilityAtMost } from '../src/linear/shape.js'
import { conformity } from '../src/statistics/index.js'

/* What the shape of an input says exactly, whatever is drawn; and inputs that cancel. */

const spread = (distribution: Spread['distribution'], half = 2): Spread => ({
  nominal: 3,
  lower: 3 - half,
  upper: 3 + half,
  distribution,
})

describe('a simulated straight line', () => {
  // Half-width 2: JCGM 101:2008, table 1 and 6.4. What is drawn is held against the line itself, so that no trial's luck is left.
  it.each<[Spread['distribution'], number]>([
    [{ kind: 'rectangular' }, 2 / Math.sqrt(3)],
    [{ kind: 'triangular' }, 2 / Math.sqrt(6)],
    [{ kind: 'trapezoidal', top: 0.3 }, 2 * Math.sqrt(1.09 / 6)],
    [{ kind: 'trapezoidal', top: 0.8 }, 2 * Math.sqrt(1.64 / 6)],
    [{ kind: 'normal', coverage: 2 }, 1],
  ])('in an input of the shape %o has its standard deviation, alone and beside another', (distribution, u) => {
    const one = simulate({ a: spread(distribution) }, ({ a }) => 1 - 2 * a)
    expect(one.u / (2 * u)).toBeCloseTo(1, 9)
    expect(one.mean).toBeCloseTo(-5, 9)
    const two = simulate({ a: spread(distribution), b: spread({ kind: 'rectangular' }) }, ({ a, b }) => a - b)
    expect(two.u / Math.hypot(u, 2 / Math.sqrt(3))).toBeCloseTo(1, 9)
  })

  it('in correlated inputs has the standard deviation of their sum', () => {
    const correlations = [{ between: ['a', 'b'], coefficient: 0.5 }] as const
    const inputs = { a: spread({ kind: 'normal', coverage: 1 }, 3), b: spread({ kind: 'normal', coverage: 1 }, 4) }
    // Variance 9 + 16 + 2 · 0.5 · 3 · 4 = 37, and 13 for the difference.
    expect(simulate(inputs, ({ a, b }) => a + b, { correlations }).u).toBeCloseTo(Math.sqrt(37), 9)
    expect(simulate(inputs, ({ a, b }) => a - b, { correlations }).u).toBeCloseTo(Math.sqrt(13), 9)
  })

  it('in inputs that add by size has the sum of their standard deviations', () => {
    const groups = [{ name: 'tied', inputs: ['a', 'b'] as const }]
    for (const kind of ['rectangular', 'triangular'] as const) {
      const inputs = { a: spread({ kind }), b: spread({ kind }, 1) }
      const { u } = simulate(inputs, ({ a, b }) => a - 3 * b, { groups })
      expect(u * Math.sqrt(kind === 'triangular' ? 6 : 3)).toBeCloseTo(2 + 3, 2)
    }
  })

  it('asks for its accuracy as a number', () => {
    const asked = (accuracy: unknown) => () =>
      simulate({ a: spread({ kind: 'rectangular' }) }, ({ a }) => a, { accuracy: accuracy as number })
    expect(asked('0.5')).toThrow(/accuracy = "0.5": allowed is more than 0 and less than 1/)
    expect(asked(Number.NaN)).toThrow(/accuracy = NaN/)
    expect(() => conformity({ estimate: 1, u: 1 }, { lower: '0' as never })).toThrow(
      /limits\.lower = "0": allowed is a number/,
    )
  })
})

describe('a probability by linear propagation', () => {
  /** Share of a sum of a rectangle of ±1 and of four of ±0.1 that lies below a limit: brute force over the small ones, the wide one exactly. */
  function below(limit: number): number {
    const steps = 10
    let [sum, count] = [0, 0]
    for (let n = 0; n < steps ** 4; n++) {
      let rest = limit
      for (let k = 0; k < 4; k++) rest -= 0.1 * ((2 * (Math.floor(n / steps ** k) % steps) + 1) / steps - 1)
      sum += Math.min(1, Math.max(0, (rest + 1) / 2))
      count++
    }
    return sum / count
  }

  it('has the shape of its widest part in it, in whatever order the inputs are named', () => {
    const wide = { wide: spread({ kind: 'rectangular' }, 1) }
    const few = Object.fromEntries(['a', 'b', 'c', 'd'].map((name) => [name, spread({ kind: 'rectangular' }, 0.1)]))
    const sum = (x: Readonly<Record<string, number>>) => Object.values({ ...x }).reduce((all, one) => all + one - 3, 0)
    for (const limit of [-0.9, -0.2, 0, 0.5, 0.95]) {
      const [first, last] = [
        { ...wide, ...few },
        { ...few, ...wide },
      ].map((inputs) => probabilityAtMost(limit, propagate<string>(inputs, sum)))
      expect(first!.probability).toBeCloseTo(below(limit), 3)
      expect(last!.probability).toBeCloseTo(first!.probability, 12)
      expect(last!.carried).toBe(true)
    }
  })
})

describe('inputs that are wholly correlated', () => {
  const known = (u: number, degreesOfFreedom: number): Spread => ({
    ...spread({ kind: 'normal', coverage: 1 }, u),
    degreesOfFreedom,
  })
  it('cancel in their difference, and leave no uncertainty whose degrees of freedom would count', () => {
    const correlations = [{ between: ['a', 'b'], coefficient: 1 }] as const
    const { u, degreesOfFreedom, contributions } = propagate(
      { a: known(0.3, 5), b: known(0.3, 5) },
      ({ a, b }) => a - b,
      { correlations },
    )
    expect([u, degreesOfFreedom]).toEqual([0, null])
    expect(contributions.map(({ share }) => share)).toEqual([0, 0])
    // What the last digits leave of 0.3 and three times 0.1 is nothing either.
    const rounded = propagate({ a: known(0.3, 5), b: known(0.1, 5) }, ({ a, b }) => a - 3 * b, { correlations })
    expect([rounded.u, rounded.degreesOfFreedom]).toEqual([0, null])
    // Beside another input that is left, its own count.
    const rest = propagate({ a: known(0.3, 5), b: known(0.3, 5), c: known(0.1, 7) }, ({ a, b, c }) => a - b + c, {
      correlations,
    })
    expect(rest.u).toBeCloseTo(0.1, 12)
    expect(rest.degreesOfFreedom).toBeCloseTo(7, 6)
  })
})
