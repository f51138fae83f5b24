import { between } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Box } from '../src/extremes/box.js'
import { climb } from '../src/extremes/climb.js'
import { briefEvaluator, compileInputs } from '../src/model/evaluate.js'

/*
 * One climb over functions whose highest place is known: sums of hills, one along each input, and hills that stand askew.
 */

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const boxOf = (count: number, height: (x: readonly number[]) => number) => {
  const names = Array.from({ length: count }, (_, k) => `x${k}`)
  const compiled = compileInputs(Object.fromEntries(names.map((name) => [name, between(0, 1, 0.5)])))
  return new Box(
    compiled,
    briefEvaluator(compiled, (x) => height(names.map((name) => x[name]!))),
  )
}
const fine = { parts: () => 8, sections: 40, narrowFrom: 8, rounds: 5 }
const hills = fc.array(fc.record({ top: number(-0.2, 1.2), steep: number(0.1, 5) }), { minLength: 1, maxLength: 5 })
/** Along one input, how far below its top a hill is: at its top, or at the limit next to it. */
const below = ({ top, steep }: { top: number; steep: number }, x: number) => steep * (x - top) ** 2

describe('a climb', () => {
  it('comes to the top of a sum of hills from anywhere in one round, and to its foot when it goes down', () => {
    fc.assert(
      fc.property(
        hills,
        fc.array(number(0, 1), { minLength: 5, maxLength: 5 }),
        fc.constantFrom(1, -1),
        (all, at, sign) => {
          const box = boxOf(all.length, (x) => sign * all.reduce((sum, hill, k) => sum - below(hill, x[k]!), 0))
          climb(box, sign as 1 | -1, at.slice(0, all.length), { ...fine, rounds: 1 })
          const highest = all.reduce((sum, hill) => sum - below(hill, Math.min(1, Math.max(0, hill.top))), 0)
          const best = sign > 0 ? box.best.upper.value : -box.best.lower.value
          expect(best).toBeLessThanOrEqual(highest + 1e-12)
          expect(best).toBeGreaterThan(highest - 1e-9)
        },
      ),
      { numRuns: 100 },
    )
  })

  it('comes nearer to the top of a hill that stands askew with each round, by the square of its slant', () => {
    // Of x² + y² - 2·s·x·y about a top each line takes x to s·y: so each round leaves s² of the way, s⁴ of the height.
    for (const slant of [0.3, 0.5, 0.7]) {
      const top = [0.05, 0.55]
      const heights = [1, 2, 3].map((rounds) => {
        const box = boxOf(2, ([x, y]) => {
          const [a, b] = [x! - top[0]!, y! - top[1]!]
          return -(a * a + b * b - 2 * slant * a * b)
        })
        climb(box, 1, [0.5, 0.9], { ...fine, parts: () => 32, rounds })
        return box.best.upper.value
      })
      // From y = 0.35 the first round leads to x = s·y and then to s²·y: of the height s²·(1 - s²)·y² is left.
      const left = [1, 2, 3].map((rounds) => -(1 - slant ** 2) * 0.35 ** 2 * slant ** (4 * rounds - 2))
      heights.forEach((height, n) => {
        expect(height / left[n]!).toBeCloseTo(1, 3)
      })
    }
  })

  it.each([0, 1])('finds a height at the limit %d of a line, however narrow, beside a lower hill', (limit) => {
    const box = boxOf(1, ([x]) => Math.max(1 - 50 * (x! - 0.5) ** 2, 2 - 1000 * (x! - limit) ** 2))
    climb(box, 1, [0.4], fine)
    expect(box.best.upper.value).toBe(2)
    expect(box.best.upper.place).toEqual([limit])
  })

  it('leaves an input that has no parts where it is, and finds of two hills along one line the higher', () => {
    const box = boxOf(2, ([x, y]) => Math.max(1 - 50 * (x! - 0.22) ** 2, 2 - 50 * (x! - 0.81) ** 2) - y! * y!)
    climb(box, 1, [0.2, 0.7], { ...fine, parts: (k) => (k === 0 ? 8 : 0) })
    expect(box.best.upper.value).toBeCloseTo(2 - 0.7 ** 2, 9)
    expect(box.best.upper.place[0]).toBeCloseTo(0.81, 6)
  })
})
