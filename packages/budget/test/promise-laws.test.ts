import { between } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nominalRows } from '../src/block/nominal.js'
import type { ErrorRow, LimitRow, Reading } from '../src/block/rows.js'
import { besides } from '../src/extremes/extremes.js'
import { briefEvaluator, compileInputs } from '../src/model/evaluate.js'

/*
 * What a look with nominal parts promises of a row: no less than what is left of it at the worst corner, which is sought here among all
 * of them. Of readings that are straight in their parts and their conditions.
 */

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const drawn = fc.record({
  weights: fc.array(number(-1, 1), { minLength: 1, maxLength: 4 }),
  spots: fc.array(number(0.1, 0.9), { minLength: 6, maxLength: 6 }),
  withConditions: fc.array(number(-0.3, 0.3), { minLength: 0, maxLength: 2 }),
  offset: number(-0.2, 0.2),
  allowed: number(0.5, 4),
})
type Drawn = typeof drawn extends fc.Arbitrary<infer T> ? T : never

/** Parts `p0` … from -1 to 1, not in their middle, and conditions `c0` … from 0 to 1; truth is 0 and the shown value `offset` off. */
function readingOf({ weights, spots, withConditions, offset }: Drawn) {
  const parts = weights.map((_, k) => `p${k}`)
  const conditions = withConditions.map((_, k) => `c${k}`)
  const names = [...parts, ...conditions]
  const nominal = (k: number) => 2 * spots[k]! - 1
  const slopes = [...weights, ...withConditions]
  const y: Record<string, number> = {}
  const reading: Reading = {
    inputs: Object.fromEntries([
      ...conditions.map((name, k) => [name, between(0, 1, spots[4 + k])]),
      ...parts.map((name, k) => [name, between(-1, 1, nominal(k))]),
    ]),
    conditions,
    row: (columns, i) => {
      for (const name of names) y[name] = columns[name]![i]!
      return y
    },
    follow: (x) => x,
    formulas: [],
  }
  const shown = (x: Readonly<Record<string, number>>) =>
    names.reduce((sum, name, k) => sum + slopes[k]! * (x[name]! - (k < parts.length ? nominal(k) : 0)), offset)
  const ends = [[]] as number[][]
  const corners = (count: number, low: number) =>
    Array.from({ length: count }).reduce<number[][]>(
      (all) =>
        all.flatMap((c) => [
          [...c, low],
          [...c, 1],
        ]),
      ends,
    )
  const at = (values: readonly number[]) => shown(Object.fromEntries(names.map((name, k) => [name, values[k]!])))
  const nominals = parts.map((_, k) => nominal(k))
  const ofNominal = corners(conditions.length, 0).map((c) => at([...nominals, ...c]))
  const ofAll = corners(parts.length, -1).flatMap((p) => corners(conditions.length, 0).map((c) => at([...p, ...c])))
  return { reading, shown, ofNominal, ofAll }
}
const text = { id: 'row', name: 'row', unit: 'V', catches: [] } as const
const sizes = (values: readonly number[]) => Math.max(...values.map(Math.abs))

describe('a look with nominal parts', () => {
  it('finds the largest error at the ends of the conditions, and promises nearly what the worst corner leaves, never less', () => {
    fc.assert(
      fc.property(drawn, (x) => {
        const { reading, shown, ofNominal, ofAll } = readingOf(x)
        const budget = { name: 'E', symbol: 'E', quantity: 'error' }
        const { allowed } = x
        const row: ErrorRow = { ...text, kind: 'error', sense: 'at most', reading, shown, truth: 0, allowed, budget }
        const [found] = nominalRows([row])
        expect(found!.value).toBeCloseTo(sizes(ofNominal), 12)
        expect(found!.slack).toBeCloseTo(allowed - sizes(ofNominal), 12)
        const left = allowed - sizes(ofAll)
        expect(found!.promise * allowed).toBeGreaterThanOrEqual(left - 1e-12)
        // A tenth of what parts add is kept back, and no more.
        expect(found!.promise * allowed - left).toBeLessThanOrEqual(0.1 * (sizes(ofAll) - sizes(ofNominal)) + 1e-12)
      }),
      { numRuns: 200 },
    )
  })

  it('finds the least slack of a limit at the ends of the conditions, whichever side of it is allowed', () => {
    fc.assert(
      fc.property(drawn, fc.constantFrom('at most', 'at least'), (x, sense) => {
        const { reading, shown, ofNominal } = readingOf(x)
        const limit = sense === 'at most' ? x.allowed : -x.allowed
        const row: LimitRow = { ...text, kind: 'limit', sense, reading, value: shown, limit }
        const [found] = nominalRows([row])
        const worst = sense === 'at most' ? Math.max(...ofNominal) : Math.min(...ofNominal)
        expect(found!.value).toBeCloseTo(worst, 12)
        expect(found!.limit).toBe(limit)
        expect(found!.promise * x.allowed).toBeCloseTo(x.allowed - Math.abs(worst) * Math.sign(worst * limit), 12)
      }),
      { numRuns: 200 },
    )
  })

  it('goes from what is cheap to what is dear, and no further than the first row that fails', () => {
    const { reading, shown } = readingOf({ weights: [0.1], spots: [0.5], withConditions: [], offset: 0, allowed: 1 })
    const budget = { name: 'E', symbol: 'E', quantity: 'error' }
    const error: ErrorRow = { ...text, kind: 'error', sense: 'at most', reading, shown, truth: 0, allowed: 1, budget }
    const limit: LimitRow = { ...text, kind: 'limit', sense: 'at most', reading, value: shown, limit: 1 }
    const plain = { ...text, kind: 'plain', sense: 'at most', worst: 0, limit: 1 } as const
    const kinds = (rows: Parameters<typeof nominalRows>[0]) => nominalRows(rows).map(({ row }) => row.kind)
    expect(kinds([error, limit, plain])).toEqual(['plain', 'limit', 'error'])
    expect(kinds([error, { ...limit, limit: -1 }, plain])).toEqual(['plain', 'limit'])
    expect(kinds([error, limit, { ...plain, worst: 2 }])).toEqual(['plain'])
  })
})

describe('a look beside two corners', () => {
  const names = ['a', 'b', 'c']
  const compiled = compileInputs({ a: between(-1, 1, 0.3), b: between(-1, 1, -0.2), c: between(-1, 1, 0.1) })
  const own = [0.3, -0.2, 0.1]
  const weighed = (w: readonly number[], x: Readonly<Record<string, number>>) =>
    names.reduce((sum, name, k) => sum + w[k]! * x[name]!, w[3]! * x['a']! * x['b']! + w[4]! * x['b']! * x['c']!)
  const ways = fc.array(fc.constantFrom(-1, 0, 1), { minLength: 3, maxLength: 3 })
  /** The corners, and each with one input alone at either limit. */
  const places = (corners: readonly number[][]) =>
    corners.flatMap((way) => {
      const place = way.map((end, k) => (end === 0 ? own[k]! : end))
      return [place, ...place.flatMap((_, k) => [-1, 1].map((end) => place.map((value, n) => (n === k ? end : value))))]
    })

  it('finds the largest and the smallest there and at the nominal values', () => {
    fc.assert(
      fc.property(fc.array(number(-1, 1), { minLength: 5, maxLength: 5 }), ways, ways, (weights, one, other) => {
        const model = (x: Readonly<Record<string, number>>) => weighed(weights, x)
        const found = besides(compiled, briefEvaluator(compiled, model), [Int8Array.from(one), Int8Array.from(other)])
        const values = [own, ...places([one, other])].map(([a, b, c]) => model({ a: a!, b: b!, c: c! }))
        expect(found.lower).toBeCloseTo(Math.min(...values), 12)
        expect(found.upper).toBeCloseTo(Math.max(...values), 12)
      }),
      { numRuns: 100 },
    )
  })

  it('rules nothing out where the model breaks', () => {
    const model = (x: Readonly<Record<string, number>>) => Math.sqrt(x['a']! + x['b']! + 1.5)
    const found = besides(compiled, briefEvaluator(compiled, model), [Int8Array.of(1, -1, 0), Int8Array.of(1, 1, 0)])
    expect(found).toEqual({ lower: -Infinity, upper: Infinity })
  })
})
