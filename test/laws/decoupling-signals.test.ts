import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addSquares, integralOfProduct } from '../../packages/decoupling/src/waveform/signal/integral.js'
import {
  firstBelow,
  lastBelow,
  leastPossible,
  lowest,
  lowestUnder,
} from '../../packages/decoupling/src/waveform/signal/lowest.js'
import {
  at,
  derivative,
  envelope,
  later,
  negative,
  plus,
  type Signal,
} from '../../packages/decoupling/src/waveform/signal/signal.js'

/*
 * The calculus of one stretch of a waveform: a parabola and modes that fade. Differences, sums and samples are the reference, and for
 * a line or a parabola without end what is known of it on paper.
 */

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const mode = fc.record({
  x: number(-5, -0.3),
  y: fc.oneof(fc.constant(0), number(0.5, 8)),
  re: number(-2, 2),
  im: number(-2, 2),
})
const modes = fc.array(mode, { maxLength: 4 })
const signalOf = (
  list: readonly { x: number; y: number; re: number; im: number }[],
  line: readonly number[],
): Signal => ({
  constant: line[0]!,
  slope: line[1]!,
  curve: line[2]!,
  roots: { re: list.map(({ x }) => x), im: list.map(({ y }) => y) },
  re: list.map(({ re }) => re),
  // A real mode has a real amplitude.
  im: list.map(({ y, im }) => (y === 0 ? 0 : im)),
})
const line = fc.tuple(number(-3, 3), fc.oneof(fc.constant(0), number(-2, 2)), fc.oneof(fc.constant(0), number(-1, 1)))
const signal = fc.tuple(modes, line).map(([list, of]) => signalOf(list, of))
const time = number(0, 4)
const leastOf = (s: Signal, from: number, to: number) => Math.min(...samples(to - from).map((t) => at(s, from + t)))
const samples = (duration: number) => Array.from({ length: 400 }, (_, i) => (duration * i) / 399)

describe('a signal', () => {
  it('is what is written of it: parabola and modes, one that rings counted with its conjugate', () => {
    fc.assert(
      fc.property(modes, line, time, (list, of, t) => {
        const [constant, slope, curve] = of
        const sum = list.reduce((all, { x, y, re, im }) => {
          // Re((re + i·im)·e^((x + iy)t)), twice where there is a conjugate.
          const real = Math.exp(x * t) * (re * Math.cos(y * t) - (y === 0 ? 0 : im) * Math.sin(y * t))
          return all + (y === 0 ? real : 2 * real)
        }, 0)
        expect(at(signalOf(list, of), t)).toBeCloseTo(constant + slope * t + curve * t * t + sum, 10)
      }),
    )
  })

  it('goes without end where its highest power goes, and to its constant where it has none', () => {
    fc.assert(
      fc.property(signal, (s) => {
        const [curve, slope] = [Math.sign(s.curve), Math.sign(s.slope)]
        const goes = curve !== 0 ? curve * Infinity : slope !== 0 ? slope * Infinity : s.constant
        expect(at(s, Infinity)).toBe(goes)
      }),
    )
  })

  it('changes at the rate of its derivative, from a time on goes on as before, and adds up', () => {
    fc.assert(
      fc.property(signal, time, time, number(-3, 3), (s, t, from, factor) => {
        const h = 1e-5
        expect(at(derivative(s), t + h)).toBeCloseTo((at(s, t + 2 * h) - at(s, t)) / (2 * h), 5)
        expect(at(later(s, from), t)).toBeCloseTo(at(s, from + t), 9)
        expect(at(negative(s), t)).toBe(-at(s, t))
        const other = later(derivative(s), from)
        expect(at(plus(s, other, factor), t)).toBeCloseTo(at(s, t) + factor * at(other, t), 9)
        expect(at(plus(s, other), t)).toBeCloseTo(at(s, t) + at(other, t), 9)
      }),
    )
  })

  it('has modes that are never larger than their envelope, which one mode alone reaches', () => {
    fc.assert(
      fc.property(signal, time, time, (s, t, more) => {
        const still = { ...s, constant: 0, slope: 0, curve: 0 }
        expect(Math.abs(at(still, t + more))).toBeLessThanOrEqual(envelope(s, t) + 1e-12)
      }),
    )
    fc.assert(
      fc.property(mode, time, (one, t) => {
        const s = signalOf([one], [0, 0, 0])
        const around = one.y === 0 ? [t] : samples((2 * Math.PI) / one.y).map((more) => t + more)
        const undone = (there: number) => Math.abs(at(s, there)) * Math.exp(-one.x * (there - t))
        expect(Math.max(...around.map(undone)) / (envelope(s, t) || 1)).toBeCloseTo(envelope(s, t) === 0 ? 0 : 1, 3)
      }),
    )
  })
})

describe('integrals of signals', () => {
  /** By Simpson's rule on so many pieces that a mode turns little in each. */
  const byParabolas = (of: (t: number) => number, end: number) => {
    const pieces = 800
    const h = end / pieces
    const sum = Array.from({ length: pieces + 1 }, (_, i) => (i === 0 || i === pieces ? 1 : i % 2 ? 4 : 2) * of(i * h))
    return (h / 3) * sum.reduce((all, one) => all + one, 0)
  }

  it("are those of their values, two different ones and each one's square, with all powers of both parabolas", () => {
    fc.assert(
      fc.property(signal, signal, number(0.05, 4), (a, b, end) => {
        const size = 1 + byParabolas((t) => at(a, t) ** 2 + at(b, t) ** 2, end)
        const found = integralOfProduct(a, b, end)
        expect(Math.abs(found - byParabolas((t) => at(a, t) * at(b, t), end)) / size).toBeLessThan(1e-6)
        const beside = derivative(a)
        const sums = [1, 0]
        addSquares([a, beside], end, sums)
        expect(Math.abs(sums[0]! - 1 - byParabolas((t) => at(a, t) ** 2, end)) / size).toBeLessThan(1e-6)
        const squares = byParabolas((t) => at(beside, t) ** 2, end)
        expect(Math.abs(sums[1]! - squares) / (1 + squares)).toBeLessThan(1e-6)
      }),
    )
  })
})

describe('the lowest point of a signal', () => {
  it('is one of its points, no sample lies below it, and no bound above it', () => {
    fc.assert(
      fc.property(signal, number(0.01, 5), (s, duration) => {
        const found = lowest(s, duration)
        expect(at(s, found.time)).toBeCloseTo(found.value, 10)
        expect(leastOf(s, 0, duration)).toBeGreaterThanOrEqual(found.value - 1e-10)
        expect(leastPossible(s, duration, 1)).toBeLessThanOrEqual(found.value + 1e-12)
        expect(leastPossible(s, duration, -1)).toBeLessThanOrEqual(lowest(negative(s), duration).value + 1e-12)
        // Asked for below a level only, it is the same or not there.
        expect(lowestUnder(s, duration, found.value + 0.1)!.value).toBeCloseTo(found.value, 10)
        expect(lowestUnder(s, duration, found.value - 1e-9)).toBeUndefined()
      }),
    )
  })

  it('of a bound that is nothing but a line or a parabola is that line or parabola', () => {
    fc.assert(
      fc.property(line, number(0.1, 5), ([constant, slope, curve], duration) => {
        const s = signalOf([], [constant, slope, curve])
        const end = constant + slope * duration + curve * duration ** 2
        const turn = -slope / (2 * curve)
        const bottom = curve > 0 && turn > 0 && turn < duration ? constant - slope ** 2 / (4 * curve) : Infinity
        expect(lowest(s, duration).value).toBeCloseTo(Math.min(constant, end, bottom), 9)
        const bound = leastPossible(s, duration, 1)
        // A parabola hangs below its chord by a quarter of curve · duration² at most.
        expect(bound).toBeGreaterThanOrEqual(Math.min(constant, end) - (Math.max(0, curve) * duration ** 2) / 4 - 1e-12)
        if (slope === 0 && curve === 0) expect(leastPossible(s, Infinity, 1)).toBe(constant)
        else expect(leastPossible(s, Infinity, 1)).toBe(-Infinity)
      }),
    )
  })
})

describe('when a signal is below a level', () => {
  it('without end: a line that falls passes every level, and one that rises none', () => {
    fc.assert(
      fc.property(number(0.01, 3), number(0.1, 2), modes, (height, fall, list) => {
        expect(firstBelow(signalOf([], [height, -fall, 0]), 0, Infinity, 0)).toBeCloseTo(height / fall, 8)
        // With modes that rise from what they take off, nothing is lower than at the beginning.
        const rising = signalOf(
          list.map((one) => ({ ...one, y: 0, re: -Math.abs(one.re) })),
          [0, fall, 0],
        )
        const start = at(rising, 0)
        expect(lowest(rising, Infinity)).toEqual({ time: 0, value: start })
        expect(firstBelow(rising, start - height, Infinity, 0)).toBeNull()
        expect(firstBelow(rising, start + height, Infinity, 0)).toBe(0)
      }),
    )
  })

  it('is between the two places where a parabola passes it', () => {
    fc.assert(
      fc.property(number(0.01, 3), number(0.01, 5), (height, past) => {
        // (t - past)² - height is below 0 from past - √height to past + √height.
        const dip = signalOf([], [past ** 2 - height, -2 * past, 1])
        const [first, last] = [past - Math.sqrt(height), past + Math.sqrt(height)]
        const duration = last + 0.1
        expect(lastBelow(dip, 0, duration, 0)).toBeCloseTo(last, 7)
        if (first > 1e-6) expect(firstBelow(dip, 0, duration, 0)).toBeCloseTo(first, 7)
        expect(firstBelow(dip, -height - 1e-6, duration, 0)).toBeNull()
        expect(lastBelow(dip, -height - 1e-6, duration, 0)).toBeNull()
        // Within the gap a touch doesn't count.
        expect(firstBelow(dip, 0, duration, height + 1e-6)).toBeNull()
        expect(lastBelow(dip, 0, duration, height + 1e-6)).toBeNull()
      }),
    )
  })

  it('is where its samples say: none below before the first, none after the last, and the level at both', () => {
    fc.assert(
      fc.property(signal, number(0.1, 5), number(0.1, 0.9), (s, duration, share) => {
        const values = samples(duration).map((t) => at(s, t))
        const [least, most] = [Math.min(...values), Math.max(...values)]
        fc.pre(most - least > 1e-3)
        const level = least + share * (most - least)
        const first = firstBelow(s, level, duration, 0)!
        if (at(s, 0) >= level) {
          expect(at(s, first)).toBeCloseTo(level, 8)
          expect(leastOf(s, 0, first)).toBeGreaterThanOrEqual(level - 1e-9)
        } else expect(first).toBe(0)
        if (at(s, duration) >= level) {
          const last = lastBelow(s, level, duration, 0)!
          expect(at(s, last)).toBeCloseTo(level, 8)
          expect(leastOf(s, last, duration)).toBeGreaterThanOrEqual(level - 1e-9)
        }
      }),
    )
  })
})
