import { between, exact, plusMinus, readNumber } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  assess,
  type BlockRow,
  blockOf,
  changesOf,
  clipText,
  type ErrorRow,
  formula,
  holdRow,
  type LimitRow,
  marginOf,
  put,
  type Reading,
  replaced,
  worstStation,
} from '../src/index.js'

/*
 * What a row's worst case has to be, where it is known by arithmetic: an error either way, a limit that moves with parts of its own, a
 * worst case that isn't sure.
 */

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const text = { id: 'row', name: 'row', unit: 'V', sense: 'at most', catches: [] } as const

/** A reading whose values are its inputs. */
function readingOf(
  inputs: Reading['inputs'],
  conditions: readonly string[] = [],
  more: Partial<Reading> = {},
): Reading {
  const y: Record<string, number> = {}
  return {
    inputs,
    conditions,
    row: (columns, i) => {
      for (const name of Object.keys(inputs)) y[name] = columns[name]![i]!
      return y
    },
    follow: (x) => x,
    formulas: [],
    ...more,
  }
}
const errorRow = (
  reading: Reading,
  shown: ErrorRow['shown'],
  allowed: number,
  more: Partial<ErrorRow> = {},
): ErrorRow => ({
  ...text,
  kind: 'error',
  reading,
  shown,
  truth: 0,
  allowed,
  budget: { name: 'E', symbol: 'E', quantity: 'error' },
  ...more,
})

describe('an error', () => {
  it('is held at the conditions where it can lie furthest, whichever way that is', () => {
    fc.assert(
      fc.property(number(0.1, 3), number(-3, 3), number(0.1, 2), (drift, offset, part) => {
        const reading = readingOf({ e: plusMinus(0, part), T: between(-1, 1) }, ['T'])
        const { margin } = holdRow(errorRow(reading, ({ e, T }) => offset + drift * T! + e!, 1))
        expect(margin.worst).toBeCloseTo(Math.abs(offset) + drift + part, 9)
        expect(margin.nominal).toBeCloseTo(Math.abs(offset) + drift, 9)
        if (Math.abs(offset) > 0.01) expect(margin.at['T']).toBe(offset < 0 ? -1 : 1)
      }),
    )
  })

  it('that is not sure holds only where its slack covers what could still be found', () => {
    // 4x(1 - x) goes up and down again: at worst 1, and so much was seen to change.
    const hill = (allowed: number) =>
      holdRow(errorRow(readingOf({ x: between(0, 1, 0.3) }), ({ x }) => 4 * x! * (1 - x!), allowed)).margin
    expect(hill(1.5).worst).toBeCloseTo(1, 6)
    expect(hill(0.9).verdict).toBe('fails')
    expect(hill(1.5).verdict).toBe('not sure')
    expect(hill(1.5).reason).toContain('the result both rises and falls with x')
    expect(hill(2.5).verdict).toBe('holds')
  })

  it('asks the faster way to fill in a simulation where its row has one, and has the same budget by it', () => {
    let filled = 0
    const reading = readingOf({ x: plusMinus(1, 0.3) })
    const shown: ErrorRow['shown'] = ({ x }) => x! ** 3 - 1
    const fill: NonNullable<ErrorRow['fill']> = (columns, out, n) => {
      filled += n
      for (let i = 0; i < n; i++) out[i] = columns['x']![i]! ** 3 - 1
    }
    const [plain, fast] = [{}, { fill }].map((more) => holdRow(errorRow(reading, shown, 1, more), {}, { trials: 2000 }))
    expect(filled).toBeGreaterThanOrEqual(2000)
    expect(fast).toEqual(plain)
    expect(fast!.budget!.simulation!.trials).toBe(2000)
  })

  it('is refused where it says nothing of its budget', () => {
    const row = errorRow(readingOf({ x: 1 }), ({ x }) => x!, 1)
    expect(() => holdRow({ ...row, budget: { name: 'E', symbol: 'E' } as never })).toThrow(
      /row\.budget = .* Missing: quantity/,
    )
    expect(() => holdRow({ ...row, shown: undefined as never })).toThrow(/row = .* shown|row\.shown/)
  })
})

describe('a limit', () => {
  const twice = formula({
    symbol: 'B',
    quantity: 'limit',
    unit: 'V',
    inputs: { b: ['V', -10, 10] },
    expression: '2 * b',
    source: 'arithmetic',
    compute: ({ b }) => 2 * b,
  })
  const own = formula({
    symbol: 'A',
    quantity: 'value',
    unit: 'V',
    inputs: { a: ['V', -10, 10] },
    expression: '3 * a',
    source: 'arithmetic',
    compute: ({ a }) => 3 * a,
  })
  const rowOf = (a: number, b: number, limit: LimitRow['limit'] = 'B'): LimitRow => ({
    ...text,
    kind: 'limit',
    reading: readingOf({ a: plusMinus(1, a), b: plusMinus(3, b) }, [], {
      follow: (x) => Object.assign(x, { A: own(x as never), B: twice(x as never) }),
      formulas: [own, twice],
    }),
    value: 'A',
    limit,
  })

  it('that is a symbol moves with the parts behind it, as the value does with its own', () => {
    fc.assert(
      fc.property(number(0.01, 0.5), number(0.01, 0.5), (a, b) => {
        const { slack, worst, limit, at } = holdRow(rowOf(a, b)).margin
        expect([worst, limit]).toEqual([expect.closeTo(3 * (1 + a), 9), expect.closeTo(2 * (3 - b), 9)])
        expect(slack).toBeCloseTo(2 * (3 - b) - 3 * (1 + a), 9)
        expect(Object.keys(at)).toEqual(['a', 'b'])
        // What isn't behind a number or a symbol stays nominal.
        expect(holdRow(rowOf(a, b, 7)).margin.at).toEqual({ a: expect.closeTo(1 + a) })
      }),
    )
  })

  it('that may be passed is told by its worst value, never rounded to the better side', () => {
    fc.assert(
      fc.property(number(0.5, 9), fc.constantFrom('at most' as const, 'at least' as const), (a, sense) => {
        const limit = sense === 'at most' ? 0.1 : 90
        const words = clipText([
          { ...rowOf(0, 0, limit), reading: { ...rowOf(0, 0).reading, inputs: { a, b: 1 } }, sense },
        ])!
        const [, told] = /: row, (.*) against/.exec(words)!
        const volts = readNumber(told!, { field: 'told', unit: 'V' })
        if (sense === 'at most') expect(volts).toBeGreaterThanOrEqual(3 * a - 1e-12)
        else expect(volts).toBeLessThanOrEqual(3 * a + 1e-12)
        expect(Math.abs(volts / (3 * a) - 1)).toBeLessThan(0.01)
      }),
    )
  })
})

describe('a rule that accepts by probability', () => {
  it('where nothing varies takes the value itself', () => {
    const margin = (limit: number) =>
      marginOf({ ...text, value: ({ x }) => x, limit }, { inputs: { x: 2 }, conditions: [], accept: 0.9 })
    expect([margin(3), margin(2), margin(1)].map(({ verdict }) => verdict)).toEqual(['holds', 'holds', 'fails'])
  })
})

describe('the worst of the conditions', () => {
  it('is searched for where the result turns inside the limits of a part', () => {
    fc.assert(
      fc.property(number(0.2, 0.8), number(1, 3), (top, drift) => {
        const inputs = { x: between(0, 1, 0.1), T: between(1, 1 + drift) }
        const model = ({ x, T }: { x: number; T: number }) => T * (1 - (x - top) ** 2)
        const { extremes, at } = worstStation({ inputs, conditions: ['T'] }, model, (_, upper) => upper)
        expect(at).toEqual({ T: 1 + drift })
        expect(extremes.upper).toBeCloseTo(1 + drift, 6)
        expect(extremes.reasons).toEqual(['the result both rises and falls with x'])
      }),
      { numRuns: 30 },
    )
  })
})

describe('a change', () => {
  /** A meter of one gain: its reading and its error, and a margin that is named otherwise than its row. */
  const meter = blockOf<{ gain: number; offset?: number; shunt?: string }, null, any>({
    name: 'meter',
    read: (choice) => choice,
    at: (read) => read,
    setup: ({ gain, offset = 0 }) => {
      const reading = readingOf({ e: plusMinus(0, 0.1), g: exact(gain) })
      const level: BlockRow = { ...text, id: 'level', kind: 'plain', sense: 'at least', worst: gain, limit: 2 }
      return {
        rows: [
          errorRow(reading, ({ e, g }) => offset + e! * g!, 10, { id: 'error' }),
          { ...text, id: 'own', kind: 'own', hold: () => ({ ...holdRow(level).margin, id: 'level' }) },
        ],
        cautions: () => [],
        report: () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] }),
      }
    },
  })
  const high = put({ id: 'high', name: 'more gain', puts: { gain: 3, shunt: 'none' }, text: '3' })

  it('says of every error how large it is with it and without', () => {
    const { changes } = changesOf(meter, { level: [high] }, { gain: 1 }, null)
    expect(changes.map(({ errors, verdict }) => [errors, verdict])).toEqual([
      [[{ id: 'error', name: 'row', unit: 'V', before: expect.closeTo(0.1), after: expect.closeTo(0.3) }], 'holds'],
    ])
  })

  it('of several values is there already only where all of them are', () => {
    const rungs = (choice: object) => high.rungs({ choice, conditions: null, read: choice })
    expect(rungs({ gain: 3, shunt: 'none' })).toEqual([])
    expect(rungs({ gain: 3 }).length).toBe(1)
    expect(rungs({ gain: 1, shunt: 'none' }).length).toBe(1)
  })

  it('to another part is told by its name in words', () => {
    const parts = { zeroDrift: 1, singleSupplyAt5V: 2, 'in words': 3, NPN: 4, plain: 5, 'of mineWith': 6 }
    const { rungs } = replaced({ id: 'part', name: 'another part', path: 'part', parts })
    const texts = rungs({ choice: {}, conditions: null, read: {} }).map(({ text }) => text)
    expect(texts).toEqual(['zero drift', 'singleSupplyAt5V', 'in words', 'NPN', 'plain', 'of mineWith'])
  })

  it('is looked for too where a margin is named otherwise than its row', () => {
    expect(assess(meter, { gain: 3 }, null).margins.map(({ id }) => id)).toEqual(['level', 'error'])
  })
})
