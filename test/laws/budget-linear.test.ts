import { extremes, propagate } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
/** Widths well above rounding, so that a law isn't tried on noise. */
const even = fc.tuple(number(-10, 10), number(0.001, 3), number(0.001, 3)).map(
  ([nominal, below, above]): Spread => ({
    nominal,
    lower: nominal - below,
    upper: nominal + above,
    distribution: { kind: 'rectangular' },
  }),
)
const factor = fc.oneof(number(0.1, 5), number(-5, -0.1))
const terms = fc.array(fc.tuple(even, factor), { minLength: 1, maxLength: 12 })
const inputsOf = (spreads: readonly Spread[]) => Object.fromEntries(spreads.map((spread, k) => [`x_${k}`, spread]))
type Point = Readonly<Record<string, number>>

/** Models that real chains are made of: sums, products, ratios, clips, with an interaction. */
const model = fc
  .tuple(factor, factor, factor, fc.integer({ min: 0, max: 4 }))
  .map(([a, b, c, kind]) => ({ x_0: x, x_1: y, x_2: z }: Point): number => {
    const parts = [
      a * x! + b * y! * z!,
      (a * x! * y!) / (20 + z!),
      a * x! * x! + b * y! - c * z!,
      Math.max(a * x! + b * y!, c * z!),
      Math.sin(x!) * b + c * y! * z!,
    ]
    return parts[kind]!
  })
const three = fc.tuple(even, even, even)

describe('linear propagation', () => {
  it('is exact for linear models', () => {
    fc.assert(
      fc.property(terms, (list) => {
        const budget = propagate(inputsOf(list.map(([spread]) => spread)), (x) =>
          list.reduce((sum, [, c], k) => sum + c * x[`x_${k}`]!, 0),
        )
        const variance = list.reduce((sum, [{ lower, upper }, c]) => sum + (c * (upper - lower)) ** 2 / 12, 0)
        const middle = list.reduce((sum, [{ lower, upper }, c]) => sum + (c * (lower + upper)) / 2, 0)
        expect(Math.abs(budget.u / Math.sqrt(variance) - 1)).toBeLessThan(1e-9)
        expect(Math.abs(budget.estimate - middle)).toBeLessThan(1e-11)
        expect(budget.secondOrder).toBeLessThan(1e-9)
        expect(budget.contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 10)
      }),
    )
  })

  it('scales with the unit of the result and not with that of an input', () => {
    fc.assert(
      fc.property(three, model, number(1e-6, 1e6), (spreads, f, k) => {
        const inputs = inputsOf(spreads)
        const plain = propagate(inputs, f)
        const larger = propagate(inputs, (x) => k * f(x))
        expect(larger.u).toBeCloseTo(k * plain.u, 6 - Math.ceil(Math.log10(k * plain.u + 1)))
        const { lower, upper, nominal, distribution } = spreads[0]
        const inOtherUnit = {
          ...inputs,
          x_0: { lower: lower * k, upper: upper * k, nominal: nominal * k, distribution },
        }
        const same = propagate(inOtherUnit, (x) => f({ ...x, x_0: x['x_0']! / k }))
        expect(Math.abs(same.u - plain.u)).toBeLessThanOrEqual(1e-6 * (plain.u + plain.secondOrder) + 1e-12)
      }),
    )
  })

  it('never gives a number that is none', () => {
    fc.assert(
      fc.property(three, model, (spreads, f) => {
        const { estimate, u, expanded, secondOrder, k, contributions } = propagate(inputsOf(spreads), f)
        const numbers = [
          estimate,
          u,
          expanded,
          secondOrder,
          k,
          ...contributions.flatMap((c) => [c.share, c.sensitivity]),
        ]
        expect(numbers.every(Number.isFinite)).toBe(true)
        expect(u).toBeGreaterThanOrEqual(0)
      }),
    )
  })
})

describe('extremes', () => {
  const fractions = fc.array(fc.tuple(number(0, 1), number(0, 1), number(0, 1)), { minLength: 20, maxLength: 20 })

  it('hold every sample inside the limits, sure or not', () => {
    fc.assert(
      fc.property(three, model, fractions, (spreads, f, samples) => {
        const found = extremes(inputsOf(spreads), f)
        expect(found.lower).toBeLessThanOrEqual(found.upper)
        expect(f(found.atLower)).toBe(found.lower)
        expect(f(found.atUpper)).toBe(found.upper)
        const slack = 1e-9 * (found.upper - found.lower) + 1e-12
        for (const sample of samples) {
          const point = Object.fromEntries(
            spreads.map(({ lower, upper }, k) => [`x_${k}`, lower + (upper - lower) * sample[k]!]),
          )
          expect(f(point)).toBeLessThanOrEqual(found.upper + slack)
          expect(f(point)).toBeGreaterThanOrEqual(found.lower - slack)
        }
      }),
      { numRuns: 300 },
    )
  })

  it('never come closer together when a tolerance is widened', () => {
    fc.assert(
      fc.property(three, model, number(1, 3), fc.nat(2), (spreads, f, wider, which) => {
        const wide = spreads.map((spread, k) => {
          const { nominal, lower, upper } = spread
          if (k !== which) return spread
          return { ...spread, lower: nominal - (nominal - lower) * wider, upper: nominal + (upper - nominal) * wider }
        })
        const [before, after] = [extremes(inputsOf(spreads), f), extremes(inputsOf(wide), f)]
        const slack = 1e-9 * (before.upper - before.lower) + 1e-12
        expect(after.upper).toBeGreaterThanOrEqual(before.upper - slack)
        expect(after.lower).toBeLessThanOrEqual(before.lower + slack)
      }),
      { numRuns: 300 },
    )
  })
})
