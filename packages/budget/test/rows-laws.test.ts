import { type Input, plusMinus } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  assess,
  type BlockRow,
  blockOf,
  type FurtherError,
  formula,
  furtherOf,
  holdRow,
  marginOf,
  type PlainRow,
  propagate,
  simulate,
  worstStation,
} from '../src/index.js'
import { probabilityAtMost } from '../src/linear/shape.js'
import { ordered } from '../src/margin/verdict.js'

const share = (percent: number) => percent / 100
const text = { name: 'level', unit: 'V', catches: [] } as const

describe('the order of margins', () => {
  const verdicts = ['fails', 'not sure', 'holds'] as const
  const rows = fc.array(
    fc.record({ verdict: fc.constantFrom(...verdicts), slack: fc.integer({ min: -50, max: 50 }).map(share) }),
    { maxLength: 8 },
  )
  const plain: PlainRow = { ...text, id: 'level', kind: 'plain', sense: 'at least', worst: 1, limit: 1 }

  it('is what fails, what is not sure, what holds, and the tightest first among those that are not sure or hold', () => {
    fc.assert(
      fc.property(rows, (list) => {
        const margins = ordered(list.map((one) => ({ ...holdRow(plain).margin, ...one, nominalSlack: one.slack })))
        const places = margins.map(({ verdict }) => verdicts.indexOf(verdict))
        expect(places).toEqual([...places].sort((a, b) => a - b))
        for (const verdict of ['not sure', 'holds']) {
          const slacks = margins.filter((one) => one.verdict === verdict).map(({ slack }) => slack)
          expect(slacks).toEqual([...slacks].sort((a, b) => a - b))
        }
      }),
    )
  })

  it('puts a row that names another as its cause behind it, and no other', () => {
    const levels = ['a', 'b', 'c'].map((id, n): PlainRow => ({ ...plain, id, worst: 0.5 + n / 10 }))
    const asked = (of: string, causes: readonly string[]) => {
      const rows: BlockRow[] = levels.map((row) => (row.id === of ? { ...row, causes } : row))
      const report = () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] })
      const block = blockOf<null, null, null>({
        name: 'x',
        read: () => null,
        at: () => null,
        setup: () => ({ rows, cautions: () => [], report }),
      })
      return assess(block, null, null).margins.map(({ id }) => id)
    }
    expect(asked('a', [])).toEqual(['a', 'b', 'c'])
    expect(asked('a', ['c'])).toEqual(['c', 'a', 'b'])
    expect(asked('b', ['a'])).toEqual(['a', 'b', 'c'])
  })
})

describe('a row of limits', () => {
  /** A level that is least in the middle of the temperatures: (T - 25 °C)² and a tolerance. */
  const bowl = formula({
    symbol: 'W',
    quantity: 'level',
    unit: 'V',
    inputs: { T: ['degC', -100, 200], e: ['1', -1, 1] },
    expression: '(T - 25)^2 * (1 + e)',
    source: 'arithmetic',
    compute: ({ T, e }) => (T - 25) ** 2 * (1 + e),
  })
  const y: Record<string, number> = {}
  const rowOver = (T: number, e: Input): BlockRow => ({
    ...text,
    id: 'bowl',
    kind: 'limit',
    sense: 'at least',
    reading: {
      inputs: { T, e },
      conditions: ['T'],
      row: (c: any, i: number) => Object.assign(y, { T: c.T[i], e: c.e[i] }),
      follow: (x: any) => Object.assign(x, { W: bowl(x) }),
      formulas: [bowl],
    },
    value: 'W',
    limit: 10,
  })

  it('says at its worst case which inputs moved: those that have somewhere to go', () => {
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 90 }), fc.boolean(), (T, isExact) => {
        const { at } = holdRow(rowOver(T, isExact ? 0.2 : plusMinus(0, 0.2))).margin
        expect(at).toEqual(isExact ? {} : { e: -0.2 })
      }),
    )
  })
})

describe('further errors', () => {
  const errors = fc.array(
    fc.record({
      name: fc.constant('a'),
      kind: fc.constantFrom('voltage' as const, 'current' as const, 'share' as const),
      size: fc.integer({ min: 1, max: 99 }).map(share),
      perKelvin: fc.integer({ min: 0, max: 3 }).map(share),
    }),
    { minLength: 1, maxLength: 5 },
  )

  it('add up to the sums of what each is at its limit, with a current as a voltage and a drift times the kelvins', () => {
    fc.assert(
      fc.property(errors, fc.integer({ min: -40, max: 40 }), (list: FurtherError[], T_d) => {
        const further = furtherOf(list, { shift: 'shift', share: 'share', ofCurrent: (amperes) => 7 * amperes })
        const columns = Object.fromEntries(
          Object.entries(further.inputs).map(([symbol, input]) => [symbol, [(input as { upper: number }).upper]]),
        )
        const y = { T_d, V_add: 0, e_add: 0 }
        further.put(y, columns as never, 0)
        const sum = (isShare: boolean) =>
          list
            .filter(({ kind }) => (kind === 'share') === isShare)
            .reduce(
              (all, { kind, size, perKelvin }) => all + (kind === 'current' ? 7 : 1) * (size + perKelvin * T_d),
              0,
            )
        expect(y.V_add).toBeCloseTo(sum(false), 10)
        expect(y.e_add).toBeCloseTo(sum(true), 10)
      }),
    )
  })
})

describe('what is tied together', () => {
  it('spreads as one input of the summed width does, by linear propagation and by simulation', () => {
    const [a, b] = [plusMinus(0, 1), plusMinus(0, 2)]
    const groups = [{ name: 'tied', inputs: ['a', 'b'] as const }]
    const tied = propagate({ a, b }, ({ a, b }) => a + b, { groups })
    const alone = propagate({ a: plusMinus(0, 3) }, ({ a }) => a)
    // A rectangle from -3 to 3 lies below 1.5 with three quarters of its width.
    for (const budget of [tied, alone]) {
      const { probability, carried } = probabilityAtMost(1.5, budget)
      expect(probability).toBeCloseTo(0.75, 3)
      expect(carried).toBe(true)
    }
    const simulated = simulate({ a, b }, ({ a, b }) => a + b, { groups, limits: { upper: 1.5 } })
    expect(simulated.within).toBeCloseTo(0.75, 2)
  })
})

describe('a simulation of many inputs', () => {
  it.each(['plain', 'quasi'] as const)('%s: spreads a sum of forty as the root of the sum of squares', (method) => {
    const inputs = Object.fromEntries(Array.from({ length: 40 }, (_, n) => [`x${n}`, plusMinus(0, 1 + n / 20)]))
    const names = Object.keys(inputs)
    // A rectangle of half-width w has w/√3 (JCGM 100:2008, 4.3.7); the later half has most of the spread.
    const u = Math.sqrt(names.reduce((all, _, n) => all + (1 + n / 20) ** 2 / 3, 0))
    const sum = (x: Readonly<Record<string, number>>) => names.reduce((all, name) => all + x[name]!, 0)
    const product = (x: Readonly<Record<string, number>>) => Math.sign(sum(x)) * Math.abs(sum(x)) ** 3
    // A line is known without a simulation; so is its cube, as the cube of its quantiles: 1.96 u at 95 %.
    const { interval } = simulate(inputs, product, { method, trials: 65_536, seed: 3 })
    expect(Math.cbrt(interval[1]) / u).toBeCloseTo(1.96, 1)
    expect(Math.cbrt(interval[0]) / u).toBeCloseTo(-1.96, 1)
  })
})

describe('the worst of the conditions behind a clip', () => {
  const weight = fc.integer({ min: -9, max: 9 }).map((tenths) => tenths / 10)
  const models = fc.record({
    own: fc.array(weight, { minLength: 5, maxLength: 5 }),
    withV: fc.array(weight, { minLength: 3, maxLength: 3 }),
    withT: fc.array(weight, { minLength: 3, maxLength: 3 }),
    clips: fc.tuple(weight, weight),
    way: fc.constantFrom(1, -1),
  })

  it('is no better than any corner of parts and conditions', () => {
    const part = plusMinus(0, 1)
    const inputs = { V: plusMinus(0, 1), T: plusMinus(1, 1), a: part, b: part, c: part }
    fc.assert(
      fc.property(models, ({ own, withV, withT, clips: [low, high], way }) => {
        const model = (x: Record<keyof typeof inputs, number>) => {
          const parts = [x.a, x.b, x.c].reduce(
            (all, p, n) => all + (own[n]! + withV[n]! * x.V + withT[n]! * x.T) * p,
            0,
          )
          // Between the corners it can only be less.
          return Math.max(parts + own[3]! * x.V, low) + way * Math.min(own[4]! * x.T, high)
        }
        let least = Infinity
        for (let corner = 0; corner < 32; corner++) {
          const bit = (n: number) => ((corner >> n) & 1) * 2 - 1
          least = Math.min(least, model({ a: bit(0), b: bit(1), c: bit(2), V: bit(3), T: 1 + bit(4) }))
        }
        const { extremes, doubts } = worstStation({ inputs, conditions: ['V', 'T'] }, model, (lower) => -lower)
        if (doubts.length === 0) expect(extremes.lower).toBeLessThanOrEqual(least + 1e-9)
        // Held against the truth itself, and against a limit that the truth breaks by a hundredth.
        const spec = { ...text, id: 'x', sense: 'at least', value: model } as const
        const circumstances = { inputs, conditions: ['V', 'T'] as const }
        expect(marginOf({ ...spec, limit: least + 0.01 }, circumstances).verdict).not.toBe('holds')
        const margin = marginOf({ ...spec, limit: least - 0.01 }, circumstances)
        if (margin.verdict === 'holds') expect(margin.worst).toBeLessThanOrEqual(least + 1e-9)
      }),
      { numRuns: 300 },
    )
  })
})
