import { between } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { extremes } from '../src/index.js'

/*
 * Extremes of functions that are straight along each input: their extremes are at corners, which a table lists. And what inputs that do
 * nothing cost.
 */

/** A function that has these values at the corners and is straight along each input between them. */
const between0and1 = (values: readonly number[], x: readonly number[]): number =>
  values.reduce((sum, value, n) => sum + x.reduce((share, own, k) => share * ((n >> k) & 1 ? own : 1 - own), value), 0)

const tables = fc
  .integer({ min: 1, max: 5 })
  .chain((n) => fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2 ** n, maxLength: 2 ** n }))

describe('extremes', () => {
  it('of up to five inputs are no less far than any corner, and as far as the furthest', () => {
    fc.assert(
      fc.property(tables, (values) => {
        const names = Array.from({ length: Math.log2(values.length) }, (_, k) => `x${k}`)
        const inputs = Object.fromEntries(names.map((name, k) => [name, between(0, 1, 0.1 + 0.15 * k)]))
        const found = extremes(inputs, (x) =>
          between0and1(
            values,
            names.map((name) => x[name]!),
          ),
        )
        expect(found.upper).toBeCloseTo(Math.max(...values), 9)
        expect(found.lower).toBeCloseTo(Math.min(...values), 9)
      }),
      { numRuns: 60 },
    )
  })

  it('of up to five inputs see a peak that stands at a single corner', () => {
    for (let peak = 0; peak < 32; peak++) {
      const inputs = Object.fromEntries([0, 1, 2, 3, 4].map((k) => [`x${k}`, between(0, 1, 0.5)]))
      const model = (x: Readonly<Record<string, number>>) =>
        [0, 1, 2, 3, 4].every((k) => Math.abs(x[`x${k}`]! - ((peak >> k) & 1)) < 0.02) ? 1 : 0
      expect(extremes(inputs, model).upper).toBe(1)
    }
  })

  it('cost little more where inputs that do nothing are among them, and the same where these are exact', () => {
    const model = (x: Readonly<Record<string, number>>) => x['a']! + 2 * x['b']! + x['a']! * x['b']!
    const cost = (idle: number, isExact: boolean) => {
      const others = Array.from({ length: idle }, (_, k) => [`i${k}`, isExact ? 0.5 : between(0, 1)])
      return extremes({ a: between(0, 1), b: between(0, 1), ...Object.fromEntries(others) }, model).evaluations
    }
    const [none, exact, few, many] = [cost(0, true), cost(40, true), cost(20, false), cost(40, false)]
    expect(exact).toBe(none)
    // What is asleep moves together: each costs its look at the nominal values and on a walk, not one at every corner.
    expect((many! - few!) / 20).toBeLessThan(15)
  })
})
