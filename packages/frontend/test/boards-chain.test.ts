import type { BlockRow, Margin } from '@ohmward/budget'
import { between, exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { type Boards, type Doubtful, failing } from '../src/boards/row.js'

/* Three boards whose every value is written down, and rows whose chain is arithmetic in one line: what is marked is worked out beside it. */

const column = (...values: number[]) => Float64Array.from(values)

/** Where parts lie in their spreads: a tenth, the middle, nine tenths, but for those that are told. */
const boardsWith = (told: Readonly<Record<string, Float64Array>> = {}) => {
  const asked = new Set<string>()
  const boards = {
    count: 3,
    shares: (name: string) => {
      asked.add(name)
      return told[name] ?? column(0.1, 0.5, 0.9)
    },
    at: {
      rest: column(4, 4.1, 4.2),
      R_s: column(0.1, 0.2, 0.3),
      R_L: column(0.6, 0.7, 0.8),
      rail: column(3.1, 3.2, 3.3),
      measuring: [column(3.9, 4, 4.1), column(4, 4.1, 4.2)],
      sampled: [column(3, 3.1, 3.2), column(3.2, 3.3, 3.4)],
      lags: [column(-0.03, -0.02, -0.01), column(0.01, 0.02, 0.03)],
      current: column(4, 5, 6),
      celsiusOf: (name: string) =>
        name === 'fuse' ? column(80, 90, Number.POSITIVE_INFINITY) : name === 'wire' ? column(20, 20, 20) : undefined,
    },
  } as unknown as Boards
  return { boards, asked }
}

const inputs = {
  V_rail: between(2.8, 4.5),
  V_x: between(1, 2),
  e_gain: between(-0.1, 0.1),
  T_a: between(0, 50),
  k: 2,
  k_one: exact(1),
}

const readingOf = (own: object, formula: (y: Record<string, number>) => number) => ({
  inputs: own,
  conditions: ['T_a'],
  row: (columns: Record<string, Float64Array>, i: number) =>
    Object.fromEntries(Object.entries(columns).map(([symbol, values]) => [symbol, values[i]!])),
  follow: (y: Record<string, number>) => ({ ...y, U: formula(y) }),
  formulas: [],
})

interface Asked {
  readonly block?: string
  readonly state?: string
  readonly row: object
  readonly margin?: Partial<Margin>
  readonly converter?: string
  readonly further?: readonly object[]
  readonly boards?: Boards
}

function marks({ block = 'hall', state = 'load on', row, margin, converter, further, boards }: Asked): number[] {
  const design = {
    lives: { converter },
    divider: { further },
    controller: { brownOut: between(2.4, 2.6) },
    parts: { sensor: { supplyMinimum: between(2.9, 3) } },
    supply: { path: [{ name: 'fuse' }, { name: 'wire' }, { name: 'no. 3' }] },
  }
  const solved = { rest: between(4, 4.2), rail: between(3.1, 3.3), current: between(4, 6) }
  const doubtful = { stage: { block, state }, row: row as BlockRow, margin: { at: {}, ...margin }, solved }
  return [...failing(design as never, doubtful as unknown as Doubtful, boards ?? boardsWith().boards)]
}

const limitRow = (more: object, formula: (y: Record<string, number>) => number, own: object = inputs) => ({
  ...{ kind: 'limit', id: 'x', unit: 'V', sense: 'at most', value: 'U', limit: 3 },
  reading: readingOf(own, formula),
  ...more,
})

describe('a row of a chain, followed on every board', () => {
  it('is held at each board of its own parts, on its side of the limit', () => {
    // V_x of the three: 1.1 V, 1.5 V, 1.9 V; twice that.
    const twice = (y: Record<string, number>) => y['k']! * y['V_x']! * y['k_one']!
    expect(marks({ row: limitRow({}, twice) })).toEqual([0, 0, 1])
    expect(marks({ row: limitRow({ sense: 'at least', limit: 2.5 }, twice) })).toEqual([1, 0, 0])
    // At the limit it holds.
    expect(marks({ row: limitRow({ limit: 2 * (1 + 0.5) }, twice) })).toEqual([0, 0, 1])
    expect(marks({ row: limitRow({ sense: 'at least', limit: 2 * (1 + 0.5) }, twice) })).toEqual([1, 0, 0])
    // What is no number holds nowhere.
    expect(marks({ row: limitRow({}, () => Number.NaN) })).toEqual([1, 1, 1])
  })

  it('has value and limit by their symbols, or as functions of all values', () => {
    const same = (y: Record<string, number>) => y['V_x']!
    expect(marks({ row: limitRow({ value: 'V_x', limit: 1.6 }, same) })).toEqual([0, 0, 1])
    expect(marks({ row: limitRow({ value: (y: { U: number }) => 2 * y.U, limit: 2.5 }, same) })).toEqual([0, 1, 1])
    // 10 %, 0 and 10 % off: limits of 1.38 V, 1.5 V and 1.62 V.
    const limit = (y: { e_gain: number }) => 1.5 * (1 + y.e_gain)
    expect(marks({ row: limitRow({ limit }, same) })).toEqual([0, 0, 1])
    expect(marks({ row: limitRow({ limit: 'V_x', value: () => 1.3 }, same) })).toEqual([1, 0, 0])
  })

  it('has the condition at which it is worst, the upper end where none is told, and an input that is other for this row', () => {
    const warm = (y: Record<string, number>) => y['T_a']!
    expect(marks({ row: limitRow({ limit: 40 }, warm) })).toEqual([1, 1, 1])
    expect(marks({ row: limitRow({ limit: 40 }, warm), margin: { at: { T_a: 30 } } })).toEqual([0, 0, 0])
    const same = (y: Record<string, number>) => y['V_x']!
    expect(marks({ row: limitRow({ at: { V_x: between(2, 6) } }, same) })).toEqual([0, 1, 1])
    expect(marks({ row: limitRow({ at: { V_x: 3.5 } }, same) })).toEqual([1, 1, 1])
  })

  it('shares the converter with the other measurement, its noise and all other parts with none', () => {
    const own = { ...inputs, e_n: between(-1, 1), e_offset: between(-3, 3), n_any: between(0, 1) }
    const names = (block: string) => {
      const { boards, asked } = boardsWith()
      marks({ block, row: limitRow({}, (y) => y['V_x']!, own), boards })
      return asked
    }
    const [one, other] = [names('hall'), names('divider')]
    const shared = [...one].filter((name) => other.has(name))
    expect(shared.sort()).toEqual(['converter e_gain', 'converter e_offset'])
    for (const symbol of ['V_x', 'e_n', 'n_any']) expect(one).toContain(`hall ${symbol}`)
  })

  it('errs by what it shows, on both sides of the truth', () => {
    const error = (allowed: number) => ({
      ...{ kind: 'error', id: 'error-1', unit: 'V', truth: 1.5, allowed, budget: {} },
      reading: readingOf(inputs, () => 0),
      shown: (x: { V_x: number }) => x.V_x,
    })
    expect(marks({ row: error(0.39) })).toEqual([1, 0, 1])
    expect(marks({ row: error(0.41) })).toEqual([0, 0, 0])
  })
})

describe('what of a chain is the supply', () => {
  const rail = (y: Record<string, number>) => y['V_rail']!

  it('is for a reading under load either end of the rail as it is sampled', () => {
    // Up to 3.2 V, 3.3 V and 3.4 V; down to 3 V, 3.1 V and 3.2 V.
    expect(marks({ row: limitRow({ limit: 3.35 }, rail) })).toEqual([0, 0, 1])
    expect(marks({ row: limitRow({ limit: 3.15, sense: 'at least' }, rail) })).toEqual([1, 1, 0])
  })

  it('is for one at rest either end of the rail as it is measured, and how far the amplifier lags there', () => {
    const off = { block: 'divider', state: 'load off' }
    expect(marks({ ...off, row: limitRow({ limit: 4.05 }, rail) })).toEqual([0, 1, 1])
    expect(marks({ ...off, row: limitRow({ limit: 3.95, sense: 'at least' }, rail) })).toEqual([1, 0, 0])
    const lag = (symbol: string, limit: number, sense: string, further?: readonly object[]) =>
      marks({
        ...{ ...off, ...(further && { further }) },
        row: limitRow({ limit, sense }, (y) => y[symbol]!, { ...inputs, [symbol]: between(-0.2, 0.2) }),
      })
    expect(lag('e_add1', 0.015, 'at most')).toEqual([0, 1, 1])
    expect(lag('e_add1', -0.015, 'at least')).toEqual([1, 1, 0])
    // It is the last of the further errors; the others are parts.
    expect(lag('e_add3', 0.015, 'at most', [{}, {}])).toEqual([0, 1, 1])
    expect(lag('e_add1', 0.1, 'at most', [{}, {}])).toEqual([0, 0, 1])
  })

  it('is none of the main rail behind another one: there the spread is that of a part, and the lag as large as it may be', () => {
    // Of 2.8 V to 4.5 V a tenth, the middle and nine tenths.
    const behind = { converter: 'logic', row: limitRow({ limit: 3.5 }, rail) }
    expect(marks(behind)).toEqual([0, 1, 1])
    expect(marks({ ...behind, block: 'divider', state: 'load off' })).toEqual([0, 1, 1])
    const lag = (limit: number, sense: string) =>
      marks({
        ...{ block: 'divider', state: 'load off', converter: 'logic' },
        row: limitRow({ limit, sense }, (y) => y['e_add1']!, { ...inputs, e_add1: between(-0.05, 0.05) }),
      })
    expect([lag(0.04, 'at most'), lag(-0.04, 'at least')]).toEqual([
      [1, 1, 1],
      [1, 1, 1],
    ])
    expect([lag(0.06, 'at most'), lag(-0.06, 'at least')]).toEqual([
      [0, 0, 0],
      [0, 0, 0],
    ])
  })

  it('is for the switch the source, its resistance and the load of the board', () => {
    const own = { V_oc: between(3, 5), R_s: between(0, 1), R_L: between(0.5, 1) }
    const held = (symbol: string, limit: number) =>
      marks({ block: 'mosfet', row: limitRow({ limit }, (y) => y[symbol]!, own) })
    expect(held('V_oc', 4.05)).toEqual([0, 1, 1])
    expect(held('R_s', 0.25)).toEqual([0, 0, 1])
    expect(held('R_L', 0.65)).toEqual([0, 1, 1])
  })

  it('stays what the chain has where that is one value', () => {
    const own = { ...inputs, V_rail: exact(3.6) }
    expect(marks({ row: limitRow({ limit: 3.5 }, rail, own) })).toEqual([1, 1, 1])
    expect(marks({ row: limitRow({ limit: 3.7 }, rail, own) })).toEqual([0, 0, 0])
  })
})

describe('a row without a chain', () => {
  const volts = { kind: 'plain', id: 'x', unit: 'V', sense: 'at least' }
  const uncertain = { verdict: 'fails', nominalSlack: 0.1, probability: 0.6 } as const
  const byShare = [0, 0, 1]

  it('is held by the rail that it is of: at rest, under load, or a loop that loses more', () => {
    expect(marks({ block: 'rails', row: volts, margin: { worst: 4, limit: 4.05 } })).toEqual([1, 0, 0])
    expect(marks({ block: 'rails', row: volts, margin: { worst: 3.1, limit: 3.15 } })).toEqual([1, 0, 0])
    // 0.2 V below the lowest steady rail: 2.9 V, 3 V and 3.1 V, against sensors of 2.91 V, 2.95 V and 2.99 V.
    const lost = { worst: 2.9, limit: 3 }
    expect(marks({ block: 'decoupling', row: { ...volts, kind: 'own' }, margin: lost })).toEqual([1, 0, 0])
    // What capacitors hold up beyond the steady rail helps no board.
    const held = { worst: 3.4, limit: 3.15 }
    expect(marks({ block: 'decoupling', row: { ...volts, kind: 'own' }, margin: held })).toEqual([1, 0, 0])
  })

  it('goes by its probability where it is of no rail, current or element of the path', () => {
    const margin = { ...uncertain, worst: 3.5, limit: 3.4 }
    expect(marks({ block: 'rails', row: volts, margin })).toEqual(byShare)
    expect(marks({ block: 'hall', row: { ...volts, kind: 'own' }, margin: { ...margin, worst: 3.1 } })).toEqual(byShare)
    expect(marks({ block: 'rails', row: { ...volts, sense: 'at most' }, margin: { ...margin, worst: 4 } })).toEqual(
      byShare,
    )
    for (const worst of [6, 4, 3.1])
      expect(marks({ block: 'rails', row: { ...volts, unit: 'A' }, margin: { ...margin, worst } })).toEqual(byShare)
    const hot = { ...volts, id: 'temperature-of-fuse', unit: 'degC', sense: 'at most' }
    expect(marks({ block: 'mosfet', row: hot, margin })).toEqual(byShare)
    expect(marks({ block: 'supply', row: { ...hot, id: 'temperature-of-lid' }, margin })).toEqual(byShare)
    // Nominal parts at the limit hold; beyond it every board fails.
    expect(marks({ block: 'hall', row: hot, margin: { ...margin, nominalSlack: 0 } })).toEqual(byShare)
    expect(marks({ block: 'hall', row: hot, margin: { ...margin, nominalSlack: -1e-9 } })).toEqual([1, 1, 1])
  })

  it('of an element of the path goes by how hot that gets, and none is warm at the first step', () => {
    const held = (id: string, unit: string, limit: number) =>
      marks({ block: 'supply', row: { ...volts, id, unit, sense: 'at most' }, margin: { limit } })
    expect(held('temperature-of-fuse', 'degC', 90)).toEqual([0, 0, 1])
    expect(held('temperature-of-fuse', 'degC', 89)).toEqual([0, 1, 1])
    expect(held('temperature-of-wire', 'degC', 90)).toEqual([0, 0, 0])
    expect(held('temperature-of-no-3', 'degC', 10)).toEqual([0, 0, 0])
    // One that runs away has no balance; one that is hot has.
    expect(held('runaway-of-fuse', '1', 1)).toEqual([0, 0, 1])
  })
})
