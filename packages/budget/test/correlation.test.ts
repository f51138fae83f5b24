import type { Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { propagate } from '../src/index.js'
import { correlationFactor } from '../src/model/correlation.js'

const known = (nominal: number, u: number): Spread => ({
  nominal,
  lower: nominal - u,
  upper: nominal + u,
  distribution: { kind: 'normal', coverage: 1 },
})
const between = <A extends string, B extends string>(a: A, b: B, coefficient: number) => ({
  between: [a, b] as const,
  coefficient,
})
const inputs = { a: known(1, 3), b: known(2, 4), c: known(0, 1) }

describe('correlation', () => {
  // JCGM 100:2008, 5.2.2, note 1: coefficients of 1 add linearly, of -1 subtract.
  it.each([
    [1, 7],
    [-1, 1],
    [0, 5],
    [0.5, Math.sqrt(37)],
  ])('of %d', (r, u) => {
    const budget = propagate(inputs, ({ a, b }) => a + b, { correlations: [between('a', 'b', r)] })
    expect(budget.u).toBeCloseTo(u, 12)
    const shares = budget.contributions.reduce((sum, line) => sum + line.share, 0)
    expect(shares).toBeCloseTo(1, 12)
  })

  it('cancels to nothing', () => {
    const same = { a: known(0, 1), b: known(0, 1) }
    const budget = propagate(same, ({ a, b }) => a - b, { correlations: [between('a', 'b', 1)] })
    expect(budget.u).toBe(0)
    expect(budget.contributions.map((line) => line.share)).toEqual([0, 0])
  })

  it('of an input that does not vary changes nothing', () => {
    const budget = propagate({ a: known(0, 1), b: 2 }, ({ a, b }) => a + b, { correlations: [between('a', 'b', 0.9)] })
    expect(budget.u).toBeCloseTo(1, 14)
  })

  it('is factored so that the factor times itself is the matrix', () => {
    const { factor, indices } = correlationFactor(
      ['a', 'b', 'c', 'd'],
      [between('b', 'd', 0.6), between('d', 'c', -0.3), between('c', 'b', 0.2)],
    )
    expect(indices).toEqual([1, 3, 2])
    const matrix = [
      [1, 0.6, 0.2],
      [0.6, 1, -0.3],
      [0.2, -0.3, 1],
    ]
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        let sum = 0
        for (let k = 0; k < 3; k++) sum += (factor[i]![k] ?? 0) * (factor[j]![k] ?? 0)
        expect(sum).toBeCloseTo(matrix[i]![j]!, 14)
      }
    }
  })

  it('may be complete', () => {
    const all = [between('a', 'b', 1), between('b', 'c', 1), between('a', 'c', 1)]
    expect(propagate(inputs, ({ a, b, c }) => a + b + c, { correlations: all }).u).toBeCloseTo(8, 12)
  })

  it.each<[string, ReturnType<typeof between<string, string>>[], RegExp]>([
    [
      'contradictions',
      [between('a', 'b', 0.9), between('b', 'c', 0.9), between('a', 'c', -0.9)],
      /positive semidefinite/,
    ],
    ['contradicting certainties', [between('a', 'b', 1), between('b', 'c', 1), between('a', 'c', 0.9)], /semidefinite/],
    ['strangers', [between('a', 'z', 0)], /correlations\[0\].between = "z"/],
    ['an input with itself', [between('a', 'a', 1)], /two inputs, each pair once/],
    ['a pair twice', [between('a', 'b', 0.1), between('b', 'a', 0.1)], /correlations\[1\].between = "b, a"/],
    ['a coefficient above 1', [between('a', 'b', 1.01)], /coefficient = 1.01: allowed is -1 to 1/],
    ['a coefficient below -1', [between('a', 'b', -1.01)], /coefficient = -1.01/],
    ['no coefficient', [between('a', 'b', Number.NaN)], /coefficient = NaN/],
  ])('refuses %s', (_, correlations, message) => {
    expect(() => propagate(inputs, ({ a }) => a, { correlations } as object)).toThrow(message)
  })
})
