import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  assess,
  type BlockRow,
  blockOf,
  chain,
  changed,
  changesOf,
  choose,
  formula,
  holdRow,
  type LimitRow,
  type Margin,
  type PlainRow,
  preferred,
  put,
  tightestText,
} from '../src/index.js'
import { block, type Choice, volts } from './example-block.js'

/* How changes are tried: by the rule that decides, for each row that names one, and where a change takes the row away. */

const plain: PlainRow = {
  id: 'level',
  name: 'level',
  unit: 'V',
  catches: [],
  kind: 'plain',
  sense: 'at least',
  worst: 1,
  limit: 2,
}
const upper = { path: 'upper', unit: 'ohm' }
const more = preferred({ id: 'more', name: 'larger upper', ...upper, towards: 'up' })
const verdictOf = (choice: Choice, accept?: number) =>
  assess(block, choice, volts, { simulation: false, ...(accept && { accept }) })

describe('a change that is tried', () => {
  it('is the mildest that the rule accepts, though a board at its worst is far beyond', () => {
    // 4 V · 1/(R + 1) against 2 V with ±20 %: a half of the boards meets it from 1 kohm on, all of them from some 1.5 kohm.
    const choice = { upper: '680 ohm ±20 %', lower: '1 kohm ±20 %', wanted: 0.1 }
    for (const accept of [undefined, 0.4, 0.8, 0.95]) {
      const options = accept === undefined ? {} : { accept }
      const { changes } = changesOf(block, { high: [more] }, choice, volts, options)
      const [first] = changes
      expect(first!.verdict).toBe('holds')
      const kiloohms = (text: string) => Number.parseFloat(text) * (text.includes('kohm') ? 1 : 1e-3)
      // Of the values that are looked at, E24 or coarser, none below it is accepted.
      const milder = [0.75, 0.82, 0.91, 1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8].filter((one) => one < kiloohms(first!.text))
      for (const one of milder) {
        const trial = { ...choice, upper: `${one} kohm ±20 %` }
        expect(verdictOf(trial, accept).verdict, `${accept}: ${one} kohm beside ${first!.text}`).toBe('fails')
      }
    }
  })

  it('is offered where it helps one of the rows that name it, though another that names it has less', () => {
    // Both rows fail: the output may be 2.4 V, and isn't 1.7 V at 3 V.
    const choice = { upper: '680 ohm ±1 %', lower: '1 kohm ±1 %', wanted: 1.95 }
    const { changes } = changesOf(block, { high: [more], low: [more] }, choice, volts)
    expect(changes.map(({ id }) => id)).toEqual(['more'])
    const made = changed({ choice, conditions: volts }, changes[0]!.puts)
    const slack = (one: Choice) => verdictOf(one).margins.find(({ id }) => id === 'high')!.slack
    expect(slack(made.choice as Choice)).toBeGreaterThan(slack(choice))
  })

  it('mends a row that it takes away, with nothing said of its slack', () => {
    const wire = blockOf<{ behind?: string }, null, any>({
      name: 'wire',
      read: (choice) => choice,
      at: (read) => read,
      setup: ({ behind }) => {
        const level: BlockRow = {
          id: 'level',
          name: 'level',
          unit: 'V',
          catches: [],
          kind: 'plain',
          sense: 'at least',
          worst: 1,
          limit: 2,
        }
        return {
          rows: [...(behind === undefined ? [level] : []), { ...level, id: 'other', worst: 3 }],
          cautions: () => [],
          report: () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] }),
        }
      },
    })
    const without = put({ id: 'without', name: 'a diode', puts: { behind: 'diode' }, text: 'a diode' })
    const { changes } = changesOf(wire, { level: [without] }, {}, null)
    expect(changes).toMatchObject([{ verdict: 'holds', mends: [{ id: 'level', before: -1, after: 0 }], breaks: [] }])
  })
})

describe('a value that a change puts', () => {
  it('of nothing takes its field away and no other, at any depth', () => {
    const given = { choice: { a: 1, b: { c: 2, d: 3 }, list: [{ e: 4 }, { e: 5 }] }, conditions: { t: 6, u: 7 } }
    expect(changed(given, { a: undefined }).choice).toEqual({ b: { c: 2, d: 3 }, list: [{ e: 4 }, { e: 5 }] })
    expect(changed(given, { 'b.c': undefined }).choice.b).toEqual({ d: 3 })
    expect(changed(given, { 'list.1.e': 8 }).choice.list).toEqual([{ e: 4 }, { e: 8 }])
    expect(changed(given, { 'conditions.t': undefined })).toEqual({ ...given, conditions: { u: 7 } })
    expect(changed(given, { 'new.field': 9 }).choice).toEqual({ ...given.choice, new: { field: 9 } })
  })
})

describe('a choice that fails by its tolerance alone', () => {
  it('is turned down by the row that fails, in words and with what it lacks', () => {
    // 4 V · 1010/(1010 + 0.99 · 1010): 10 mV over 2 V, and 1.5 V at the other end against 1 V.
    const { rejected } = choose(block, [{ upper: '1.01 kohm ±1 %', lower: '1 kohm ±1 %' }], volts)
    expect(rejected.map(({ row, reason }) => [row, reason])).toEqual([['high', 'high: 10.1 mV over its limit']])
  })

  it('is told, where it is accepted, with the share of boards that meet it, and never as all of them', () => {
    const told = (probability: number) =>
      tightestText({ ...holdRow(plain).margin, verdict: 'holds', slack: -0.1, probability } as Margin)
    expect(told(0.9995)).toContain('met by more than 99.9 % of the boards')
    expect(told(0.9987)).toContain('met by 99.8 % of the boards')
    expect(told(0.987)).toContain('met by 98 % of the boards')
    expect(told(1)).toContain('met by 100 % of the boards')
  })
})

describe('a row of a reading', () => {
  const reading = {
    inputs: { a: 3 },
    conditions: [],
    row: (c: any, i: number) => ({ a: c.a[i] }),
    follow: (x: any) => x,
    formulas: [],
  }
  const row = (more: Partial<LimitRow>): LimitRow => ({
    id: 'row',
    name: 'row',
    unit: 'V',
    sense: 'at most',
    catches: [],
    kind: 'limit',
    reading,
    value: 'a',
    limit: 5,
    ...more,
  })

  it('takes a value and a limit by symbol, by a function of all values, or as a number', () => {
    const twice = ({ a }: Readonly<Record<string, number>>) => 2 * a!
    expect(holdRow(row({})).margin).toMatchObject({ worst: 3, limit: 5, slack: 2 })
    expect(holdRow(row({ value: twice })).margin).toMatchObject({ worst: 6, limit: 5, slack: -1 })
    expect(holdRow(row({ limit: twice })).margin).toMatchObject({ worst: 3, limit: 6, slack: 3 })
    expect(holdRow(row({ value: twice, limit: 'a' })).margin).toMatchObject({ worst: 6, limit: 3, slack: -3 })
  })

  it('is refused with a value or a limit that names nothing', () => {
    const allowed = /allowed is a symbol of the reading, or a function of its values/
    for (const told of ['', 3 as never, null as never]) expect(() => holdRow(row({ value: told }))).toThrow(allowed)
    expect(() => holdRow(row({ limit: '' }))).toThrow(allowed)
    expect(() => holdRow(row({ limit: Number.NaN }))).toThrow(/row\.limit/)
  })
})

describe('a long chain', () => {
  it('makes places as a short one does: every symbol in its order, and no number in any', () => {
    fc.assert(
      fc.property(fc.constantFrom(2, 126, 127, 128, 129, 200), (count) => {
        const formulas = Array.from({ length: count }, (_, n) =>
          formula({
            symbol: `y_${n}`,
            quantity: 'value',
            unit: 'V',
            inputs: { [n === 0 ? 'x' : `y_${n - 1}`]: ['V', 0, 1] },
            expression: n === 0 ? 'x' : `y_${n - 1}`,
            source: 'arithmetic',
            compute: (x: any) => x[n === 0 ? 'x' : `y_${n - 1}`],
          }),
        )
        const y = chain(formulas).place() as Record<string, number>
        expect(Object.keys(y)).toEqual(['x', ...formulas.map(({ symbol }) => symbol)])
        expect(Object.values(y).every(Number.isNaN)).toBe(true)
        y['x'] = 0.25
        for (const one of formulas) y[one.symbol] = (one as (x: typeof y) => number)(y)
        expect(y[`y_${count - 1}`]).toBe(0.25)
      }),
    )
  })
})
