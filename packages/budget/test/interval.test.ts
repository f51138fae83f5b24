import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { histogram } from '../src/sampling/histogram.js'
import { coverage, select, sortTails, tailCount } from '../src/sampling/interval.js'

const values = fc.array(fc.oneof(fc.integer({ min: -3, max: 3 }), fc.double({ noNaN: true, min: -1e9, max: 1e9 })), {
  minLength: 1,
  maxLength: 60,
})
const sorted = (list: ArrayLike<number>) => Array.from(list).sort((a, b) => a - b)

describe('select', () => {
  it('puts the value of a rank where a sort puts it', () => {
    fc.assert(
      fc.property(values, fc.nat(), (list, at) => {
        const k = at % list.length
        const data = Float64Array.from(list)
        select(data, k)
        expect(data[k]).toBe(Float64Array.from(list).sort()[k])
        expect(sorted(data)).toEqual(sorted(Float64Array.from(list)))
        expect(Math.max(...data.subarray(0, k + 1))).toBe(data[k])
        expect(Math.min(...data.subarray(k))).toBe(data[k])
      }),
    )
  })

  it.each(['rising', 'falling', 'equal', 'scattered', 'two values'])('does so for 10 000 values: %s', (kind) => {
    const of: Record<string, (i: number) => number> = {
      rising: (i) => i,
      falling: (i) => -i,
      equal: () => 1,
      scattered: (i) => (i * 7919) % 10_007,
      'two values': (i) => i % 2,
    }
    const data = new Float64Array(10_000).map((_, i) => of[kind]!(i))
    const wanted = data.slice().sort()
    for (const k of [0, 1, 250, 5000, 9749, 9999]) {
      select(data, k)
      expect(data[k]).toBe(wanted[k])
    }
  })
})

describe('sortTails', () => {
  it('sorts both ends like a sort of all, also where they meet', () => {
    fc.assert(
      fc.property(values, fc.nat(), (list, at) => {
        const count = 1 + (at % list.length)
        const data = Float64Array.from(list)
        sortTails(data, count)
        const wanted = Float64Array.from(list).sort()
        expect(data.subarray(0, count)).toEqual(wanted.subarray(0, count))
        expect(data.subarray(list.length - count)).toEqual(wanted.subarray(list.length - count))
      }),
    )
  })
})

describe('coverage', () => {
  it('takes the ranks of JCGM 101:2008, 7.7.2, for a level times trials that is whole (M = 100, p = 0.95)', () => {
    // q = 95, (M - q)/2 = 2.5, r = integer part of (M - q + 1)/2 = 3: the 3rd and the 98th value.
    const data = new Float64Array(100).map((_, i) => i + 1)
    expect(coverage(data, 0.95).interval).toEqual([3, 98])
  })

  it('finds the shortest interval that a search over all pairs finds (7.7.4)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 20, maxLength: 60 }),
        fc.constantFrom(0.5, 0.8, 0.95),
        (list, level) => {
          const data = Float64Array.from(list)
          sortTails(data, tailCount(data.length, level))
          const all = Float64Array.from(list).sort()
          const q = Math.floor(level * all.length + 0.5)
          const widths = Array.from({ length: all.length - q }, (_, r) => all[r + q]! - all[r]!)
          const [from, to] = coverage(data, level).shortest
          expect(to - from).toBe(Math.min(...widths))
        },
      ),
    )
  })

  it('gives the lower end to a density that falls from it', () => {
    const data = new Float64Array(1000).map((_, i) => -Math.log(1 - (i + 0.5) / 1000))
    expect(coverage(data, 0.95).shortest[0]).toBe(data[0])
    expect(coverage(data, 0.95).interval[0]).toBe(data[24])
  })
})

describe('histogram', () => {
  it('counts every value inside once, the upper edge in the last bin', () => {
    expect(histogram(Float64Array.of(0, 0.1, 0.5, 0.9, 1, 1.2, -0.1), 0, 1, 2).counts).toEqual([2, 3])
  })
  it('is a single bin where nothing varies', () => {
    expect(histogram(Float64Array.of(3, 3), 3, 3, 64)).toEqual({ from: 3, to: 3, counts: [2] })
  })
})
