import { worstStation } from '@ohmward/budget'
import { plusMinus } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'

/*
 * How many worst cases the screening of conditions misses, over random outputs behind a clip whose weights move with the conditions. Each
 * output bends upwards along every input, so that it is largest at a corner, and all of these are listed.
 */

type Place = Readonly<Record<string, number>>

/** A generator of numbers from -1 to 1 (the numerical recipes', from memory: any will do). */
function numbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (1664525 * state + 1013904223) % 2 ** 32
    return state / 2 ** 31 - 1
  }
}

const kinds: readonly ((a: number, b: number) => number)[] = [
  (a, b) => Math.max(0, a - 0.8) + 0.05 * b,
  Math.max,
  (a, b) => 2 * Math.max(0, a - 1) + Math.max(0, b - 1),
]

describe('the screening of conditions', () => {
  it('misses not one in a hundred of the largest outputs behind a clip, and is never beyond one', () => {
    const next = numbers(7)
    const models = 200
    let misses = 0
    for (let n = 0; n < models; n++) {
      const names = ['V', 'T', 'a', 'b', 'c', 'd', 'e'].slice(0, 5 + (n % 3))
      const weights = [0, 1].map(() => ({
        constant: next() / 2,
        of: names.map((_, k) => {
          const [fixed, isThere, withV, withT] = [next(), next() > -0.8, next(), next()]
          const moves = (share: number) => (k < 2 || share < 0 ? 0 : 0.6 * share)
          return isThere ? [fixed, moves(withV), moves(withT)] : [0, 0, 0]
        }),
      }))
      const [a, b] = weights.map(({ constant, of }) => (x: Place) => {
        let sum = constant
        for (let k = 0; k < names.length; k++) {
          const [fixed, withV, withT] = of[k]!
          sum += (fixed! + withV! * x['V']! + withT! * x['T']!) * x[names[k]!]!
        }
        return sum
      })
      const model = (x: Place) => kinds[n % 3]!(a!(x), b!(x))
      const x: Record<string, number> = {}
      let largest = Number.NEGATIVE_INFINITY
      for (let corner = 0; corner < 2 ** names.length; corner++) {
        for (let k = 0; k < names.length; k++) x[names[k]!] = ((corner >> k) & 1) * 2 - 1
        largest = Math.max(largest, model(x))
      }
      const inputs = Object.fromEntries(names.map((name) => [name, plusMinus(0, 1)]))
      const { extremes } = worstStation<string>({ inputs, conditions: ['V', 'T'] }, model, (_, upper) => upper)
      expect(extremes.upper).toBeLessThanOrEqual(largest + 1e-9)
      if (extremes.upper < largest - 1e-9) misses++
    }
    expect(misses / models).toBeLessThan(0.01)
  })
})
