import { propagate } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

/*
 * When a linear answer is doubted. A kink, a parabola and a cube have means and standard deviations that are known on
 * paper (moments of the normal distribution), so the reference is what linear propagation leaves out of them.
 */

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const known = (nominal: number, u: number): Spread => ({
  nominal,
  lower: nominal - u,
  upper: nominal + u,
  distribution: { kind: 'normal', coverage: 1 },
})
const isAbrupt = (doubts: readonly string[]) => doubts.some((one) => one.includes('abruptly'))
const middle = number(-100, 100)
const width = number(1e-3, 10)
const factor = fc.oneof(number(0.2, 5), number(-5, -0.2))

describe('a kink within the standard uncertainty', () => {
  it('that bends the result by a fifth of its uncertainty or more is doubted, wherever it lies and whichever way', () => {
    fc.assert(
      fc.property(
        middle,
        width,
        factor,
        number(-0.6, 0.6),
        number(0.5, 3),
        fc.boolean(),
        (m, u, c, place, bend, up) => {
          const kink = m + place * u
          const sign = up ? 1 : -1
          // A slope of c, and of c more by `bend` beyond the kink; the mean of the difference over ±u is what bends.
          const f = (x: number) => c * (x - m) + Math.abs(c) * bend * Math.max(0, sign * (x - kink))
          const { u: linear, doubts } = propagate({ x: known(m, u) }, ({ x }) => f(x))
          const bent = Math.abs((f(m + u) + f(m - u)) / 2 - f(m))
          if (bent > 0.2 * linear) expect(doubts).not.toEqual([])
        },
      ),
    )
  })

  it('at the estimate, or half of the uncertainty beside it, is called one', () => {
    fc.assert(
      fc.property(middle, width, factor, fc.constantFrom(0, 0.5, -0.5), (m, u, c, place) => {
        const kink = m + place * u
        const { doubts } = propagate({ x: known(m, u) }, ({ x }) => c * Math.max(x, kink))
        expect(isAbrupt(doubts)).toBe(true)
      }),
    )
  })

  it('far beyond it is not seen and not doubted: the line is one there', () => {
    fc.assert(
      fc.property(middle, width, factor, number(1.01, 5), fc.boolean(), (m, u, c, place, up) => {
        const kink = up ? m + place * u : m - place * u
        const { u: linear, doubts } = propagate({ x: known(m, u) }, ({ x }) =>
          up ? c * Math.min(x, kink) : c * Math.max(x, kink),
        )
        expect(doubts).toEqual([])
        expect(Math.abs(linear / Math.abs(c * u) - 1)).toBeLessThan(1e-6)
      }),
    )
  })
})

describe('a smooth bend', () => {
  it('is never called a kink, and the terms of second order are those of the parabola', () => {
    fc.assert(
      fc.property(middle, width, factor, factor, (m, u, a, b) => {
        // a·x + b·x² about m, in units of u: Var = a² + 2b² for a normal deviate, of which 2b² is of second order; its mean is b.
        const f = (x: number) => a * ((x - m) / u) + b * ((x - m) / u) ** 2
        const budget = propagate({ x: known(m, u) }, ({ x }) => f(x))
        expect(isAbrupt(budget.doubts)).toBe(false)
        expect(Math.abs(budget.u / Math.abs(a) - 1)).toBeLessThan(1e-6)
        expect(Math.abs(budget.secondOrder / Math.abs(Math.SQRT2 * b) - 1)).toBeLessThan(1e-6)
        // 5.1.2, note: where the mean moves by more than a tenth of u it is told.
        expect(budget.doubts.some((one) => one.includes('moves the mean'))).toBe(Math.abs(b) > 0.1 * Math.abs(a))
      }),
    )
  })

  it('of third order is told from a tenth of the uncertainty, with its size', () => {
    fc.assert(
      fc.property(middle, width, factor, number(0.001, 1), (m, u, a, share) => {
        fc.pre(Math.abs(share - 0.1) > 1e-3)
        // a·z + share·a·z³: the slope at the estimate is a, that over ±u is a·(1 + share).
        const f = (x: number) => a * ((x - m) / u + share * ((x - m) / u) ** 3)
        const { doubts, u: linear } = propagate({ x: known(m, u) }, ({ x }) => f(x))
        const told = doubts.find((one) => one.includes('the slope over ±u and the slope at the estimate differ'))
        // One reason is one doubt: moving a single input together with itself shows nothing new.
        if (share < 0.1) {
          expect(doubts).toEqual([])
          expect(Math.abs(linear / Math.abs(a) - 1)).toBeLessThan(1e-6)
        } else if (share > 0.12) {
          expect(doubts).toEqual([told])
          const size = Number(/by (\S+) in the result/.exec(told!)![1])
          expect(Math.abs(size / (share * a) - 1)).toBeLessThan(0.01)
        }
      }),
    )
  })
})

describe('a value that is none beside the estimate', () => {
  it('is told with its place, the first of u above, u below and half of it, and the slope is taken right at the estimate', () => {
    const place = (from: number, to: number, m = 1, u = 0.5) =>
      propagate({ x: known(m, u) }, ({ x }) => (x > from && x < to ? Number.NaN : 3 * x))
    const words = (from: number, to: number) =>
      place(from, to).doubts.find((one) => one.includes('no finite result at'))
    expect(words(1.3, 9)).toContain('x: no finite result at 1.5,')
    expect(words(-9, 0.7)).toContain('x: no finite result at 0.5,')
    expect(words(1.2, 1.3)).toContain('x: no finite result at 1.25,')
    expect(words(1.6, 9)).toBeUndefined()
    // Of one input it is told once: that all of them together break tells nothing more.
    expect(place(1.3, 9).doubts.length).toBe(1)
    for (const [from, to] of [
      [1.3, 9],
      [-9, 0.7],
      [1.2, 1.3],
    ] as const) {
      expect(place(from, to).u).toBeCloseTo(1.5, 6)
      expect(place(from, to).secondOrder).toBeCloseTo(0, 9)
    }
  })
})
