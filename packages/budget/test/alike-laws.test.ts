import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type BlockRow, blockOf, choose } from '../src/index.js'

/*
 * What is the same for all candidates decides nothing between them. The reference is arithmetic: each candidate is a table of slacks of a
 * limit of 1, so that the best is known without the library.
 */

type Slacks = Readonly<Record<string, number>>
const block = blockOf<Slacks, null, Slacks>({
  name: 'slacks',
  read: (slacks) => slacks,
  at: (slacks) => slacks,
  setup: (slacks) => ({
    rows: Object.entries(slacks).map(
      ([id, slack]): BlockRow => ({
        id,
        name: id,
        unit: 'V',
        catches: [],
        kind: 'plain',
        sense: 'at least',
        worst: 1 + slack,
        limit: 1,
      }),
    ),
    cautions: () => [],
    report: () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] }),
  }),
})
const share = fc.integer({ min: 1, max: 900 }).map((thousandths) => thousandths / 1000)
const lists = fc.uniqueArray(share, { minLength: 2, maxLength: 8 })
const orderOf = (list: readonly Slacks[], most = list.length) =>
  choose(block, list, null, { most }).choices.map(({ choice }) => list.indexOf(choice))
/** Places of a list by what it has there, the most first. */
const mostFirst = (values: readonly number[]) => values.map((_, n) => n).sort((a, b) => values[b]! - values[a]!)

describe('a row among candidates', () => {
  it('that is the same for all decides nothing, however tight; one that differs in its third digit decides', () => {
    fc.assert(
      fc.property(lists, (own) => {
        expect(orderOf(own.map((a) => ({ same: 0.0005, a })))).toEqual(mostFirst(own))
        const near = own.map((_, n) => 5e-4 + n * 1e-6)
        expect(orderOf(own.map((a, n) => ({ near: near[n]!, a })))).toEqual(mostFirst(near))
      }),
      { numRuns: 40 },
    )
  })

  it('that one of them lacks is not the same for all', () => {
    // The last is without the tight row: it is the best, though its other slack is the least.
    fc.assert(
      fc.property(lists, (own) => {
        const list = own.map((a, n): Slacks => (n === own.length - 1 ? { a: 0.0009 } : { tight: 0.0005, a }))
        expect(orderOf(list, 1)).toEqual([own.length - 1])
      }),
      { numRuns: 40 },
    )
  })

  it('decides where all of them are the same in every row, and where there is one candidate', () => {
    expect(orderOf([{ same: 0.1 }, { same: 0.1 }])).toEqual([0, 1])
    expect(orderOf([{ same: 0.1 }])).toEqual([0])
  })

  it('that nominal parts fail turns a choice down by its id, and no lack is told where nothing was held in full', () => {
    const { rejected } = choose(
      block,
      [
        { same: 0.1, a: -0.2 },
        { same: 0.1, a: -0.1 },
      ],
      null,
    )
    expect(rejected.map(({ choice, row, lack }) => [choice['a'], row, lack])).toEqual([
      [-0.1, 'a', undefined],
      [-0.2, 'a', undefined],
    ])
  })
})
