import { describe, expect, it } from 'vitest'
import { type BlockRow, blockOf, type ChangeOptions, changesOf, put, type Remedies } from '../src/index.js'

/* Two changes together, where no single one is enough: in which order they are tried, and none twice. */

type Choice = Readonly<Record<string, number>>

/** Rows that hold from 1 on, each a sum of what the choice puts. */
const sums = (rows: Readonly<Record<string, (choice: Choice) => number>>) =>
  blockOf<Choice, null, any>({
    name: 'sums',
    read: (choice) => choice,
    at: (read) => read,
    setup: (read) => ({
      rows: Object.entries(rows).map(
        ([id, worst]): BlockRow => ({
          ...{ id, name: id, unit: 'V', catches: [], kind: 'plain', sense: 'at least', limit: 1 },
          worst: worst(read),
        }),
      ),
      cautions: () => [],
      report: () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] }),
    }),
  })
const puts = (id: string, values: Choice) => put({ id, name: id, puts: values, text: id })
const ids = (block: ReturnType<typeof sums>, remedies: Remedies, choice: Choice, options: ChangeOptions = {}) => {
  const { changes, pairs } = changesOf(block, remedies, choice, null, options)
  return [changes.map(({ id }) => id), pairs.map(({ id }) => id)]
}
const zero = { a: 0, b: 0, c: 0, d: 0 }

describe('pairs of changes', () => {
  const two = sums({ x: ({ a }) => a!, y: ({ b }) => b! })

  it('come by the places of both in the list, three of them at most', () => {
    const remedies = {
      x: [puts('a1', { a: 1 }), puts('a2', { a: 2 }), puts('a3', { a: 3 })],
      y: [puts('b1', { b: 1 }), puts('b2', { b: 2 }), puts('b3', { b: 3 })],
    }
    // All six mend one row and leave the other at 0: so they stand as the rows name them, and places 0 + 1, 0 + 3, 1 + 2 come first.
    expect(ids(two, remedies, zero)).toEqual([
      ['a1', 'b1', 'a2', 'b2', 'a3', 'b3'],
      ['a1+b1', 'a1+b2', 'b1+a2'],
    ])
  })

  it('are not put together of two that put the same field', () => {
    const remedies = { x: [puts('a', { a: 1 })], y: [puts('b', { b: 1, a: 0.5 })] }
    // b leaves x at a half, a leaves y at 0; b first and then a would hold.
    expect(ids(two, remedies, zero)).toEqual([['b', 'a'], []])
  })

  it('that come to the same values are told once, and cost nothing the second time', () => {
    const remedies = {
      x: [puts('a', { a: 1 }), puts('again', { a: 1 }), puts('once more', { a: 1 })],
      y: [puts('b', { b: 1 })],
    }
    expect(ids(two, remedies, zero)).toEqual([['a', 'b', 'again', 'once more'], ['a+b']])
    // In whichever order their fields are named.
    const crossed = sums({
      x: ({ a, c }) => a! + c!,
      y: ({ b, d }) => b! + d!,
      z: ({ a, b, c, d }) => (a! + b! + c! + d!) / 4,
    })
    const four = {
      x: [puts('ab', { a: 1, b: 1 }), puts('ac', { a: 1, c: 1 })],
      y: [puts('cd', { c: 1, d: 1 }), puts('bd', { d: 1, b: 1 })],
    }
    const [, pairs] = ids(crossed, four, zero)
    expect(pairs).toEqual(['ab+cd'])
  })

  it('are tried first that leave least unmended and unbroken, whatever their places', () => {
    // p and q leave x at a half each and mend it together; r mends x and y alone, s mends w, as t does by the field of r.
    const block = sums({
      x: ({ p, q, r }) => (p! + q!) / 2 + r!,
      y: ({ p, r }) => p! + r!,
      w: ({ q, s, t }) => q! + s! + t!,
    })
    const choice = { p: 0, q: 0, r: 0, s: 0, t: 0 }
    const remedies = {
      x: [puts('r', { r: 1, t: 0 })],
      y: [puts('p', { p: 1 })],
      w: [puts('q', { q: 1, t: 0 }), puts('t', { t: 1 }), puts('s', { s: 1 })],
    }
    const [changes, pairs] = ids(block, remedies, choice)
    expect(changes).toEqual(['r', 'p', 'q', 't', 's'])
    // Places 0 + 4 against 1 + 2.
    expect(pairs).toEqual(['r+s', 'p+q'])
  })

  it('with one that breaks what the other mends come last', () => {
    // a mends x and leaves z at a half, to which b, which mends y, adds what is missing.
    const block = sums({ x: ({ a, c }) => a! + c!, y: ({ b, d }) => b! + d!, z: ({ a, e }) => 1 - 0.5 * a! + 0.5 * e! })
    const choice = { ...zero, e: 0 }
    const remedies = {
      x: [puts('a', { a: 1 }), puts('c', { c: 1 })],
      y: [puts('b', { b: 1, e: 1 }), puts('d', { d: 1 })],
    }
    const [, pairs] = ids(block, remedies, choice)
    expect(pairs!.at(-1)).toBe('b+a')
    expect(pairs).toHaveLength(3)
  })

  it('have a tenth of the checks, however many single ones there are to try', () => {
    const many = (id: string) => Array.from({ length: 9 }, (_, n) => puts(`${id}${n + 1}`, { [id]: n + 1 }))
    const remedies = { x: many('a'), y: many('b') }
    const [changes, pairs] = ids(two, remedies, zero, { checks: 10 })
    expect(changes!.length).toBeLessThan(9)
    expect(pairs).toEqual(['a1+b1'])
    const { untried } = changesOf(two, remedies, zero, null, { checks: 10 })
    expect(untried).toHaveLength(18 - changes!.length)
    expect(ids(two, remedies, zero, { checks: 30 })[1]).toHaveLength(3)
    expect(ids(two, remedies, zero, { checks: 0 })).toEqual([[], []])
  })
})
