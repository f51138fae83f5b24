import { type Input, nominalOf, readSpread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import {
  type Assessment,
  assess,
  type BlockRow,
  blockOf,
  type ChangeOptions,
  changed,
  changesOf,
  choose,
  grid,
  plainMargin,
  preferred,
  put,
  type Remedies,
  replaced,
  solved,
  sweep,
  tighter,
} from '../src/index.js'
import { block, type Choice, volts } from './example-block.js'

const upper = { path: 'upper', unit: 'ohm' }
const up = preferred({ id: 'up', name: 'larger upper', ...upper, towards: 'up' })
const down = preferred({ id: 'down', name: 'smaller upper', ...upper, towards: 'down' })
const number = solved({ id: 'number', name: 'upper of', ...upper, to: 1e5 })
const close = tighter({ id: 'close', name: 'closer', paths: ['upper', 'lower'], unit: 'ohm' })
const part = replaced({
  id: 'part',
  name: 'other',
  path: 'lower',
  parts: { small: '470 ohm', tiny: '100 ohm', wrong: -1 },
})
const same = put({ id: 'same', name: 'same', puts: { lower: '1 kohm ±1 %' }, text: '1 kohm' })
const remedies: Remedies = { high: [up, number, close, part, same], low: [down] }
const after = (choice: Choice, puts: Readonly<Record<string, unknown>>) => {
  const made = changed({ choice, conditions: volts }, puts)
  return assess(block, made.choice, made.conditions)
}

describe('an assessment of rows', () => {
  it('holds each at its worst', () => {
    // 4 V · 1010 / (1010 + 990) at most, 3 V · 990 / (1010 + 990) at least.
    const { margins, verdict } = assess(block, { upper: '1 kohm ±1 %', lower: '1 kohm ±1 %' }, volts) as Assessment
    const at = Object.fromEntries(margins.map((one) => [one.id, one]))
    expect(at['high']!.worst).toBeCloseTo((4 * 1010) / 2000, 12)
    expect(at['low']!.worst).toBeCloseTo((3 * 990) / 2000, 12)
    expect(verdict).toBe('fails')
    expect(nominalOf(2)).toBe(2)
  })

  it('sweeps over a condition, with the rows asked for', () => {
    const choice = { upper: '1 kohm ±1 %', lower: '1 kohm ±1 %' }
    const points = sweep(block, choice, volts, grid({ volts: [3, 3.5, 4] }), ['high'])
    expect(points.map(({ at }) => at['volts'])).toEqual([3, 3.5, 4])
    expect(points.map(({ margins }) => margins.length)).toEqual([1, 1, 1])
    for (const { at, margins } of points) expect(margins[0]!.worst).toBeCloseTo((at['volts']! * 1010) / 2000, 12)
    expect(points.map(({ verdict }) => verdict)).toEqual(['holds', 'holds', 'fails'])
  })
})

describe('changes', () => {
  const choice = { upper: '1 kohm ±1 %', lower: '1 kohm ±1 %' }
  const look = (options?: ChangeOptions) => changesOf(block, remedies, choice, volts, options)

  it('are the mildest that is enough, with the tolerance that stood there, and hold as printed', () => {
    const { changes } = look()
    const of = (id: string) => changes.find((one) => one.id === id)
    // 4·1010/(1010 + 0.99·R) <= 2 from R = 1020.2 ohm on: 1.1 kohm in E24, 1.03 kohm with two digits is 1.1, with these 1.1.
    expect(of('up')!.puts).toEqual({ upper: '1.1 kohm ±1 %' })
    expect(of('number')!.puts).toEqual({ upper: '1.1 kohm ±1 %' })
    expect(of('part')!.text).toBe('small')
    for (const { puts, verdict, mends, breaks } of changes) {
      const { margins, verdict: again } = after(choice, puts)
      expect(again).toBe(verdict)
      for (const { id } of mends) expect(margins.find((one) => one.id === id)!.verdict).toBe('holds')
      for (const { id } of breaks) expect(margins.find((one) => one.id === id)!.verdict).not.toBe('holds')
    }
  })

  it('leave out what stands there, what is refused, and what is no help', () => {
    const ids = look().changes.map(({ id }) => id)
    expect(ids).not.toContain('same')
    expect(ids).not.toContain('down')
    // A closer tolerance alone can't bring 2 V below 2 V by any: 4·1000/2000 stays at the limit and above.
    expect(ids.filter((id) => id === 'close').length).toBeLessThanOrEqual(1)
  })

  it('say what they break, and put those that break nothing first', () => {
    const { changes } = look()
    expect(changes[0]!.verdict).toBe('holds')
    const broken = changes.find(({ id }) => id === 'part')!
    expect(broken.breaks.map(({ id }) => id)).toEqual(['low'])
    expect(broken.breaks[0]!.after).toBeLessThan(0)
  })

  it('take the parts that they are given', () => {
    const { changes } = look({ parts: { lower: { mine: '900 ohm ±1 %' } } })
    expect(changes.find(({ id }) => id === 'part')).toMatchObject({ text: 'mine', puts: { lower: '900 ohm ±1 %' } })
  })

  it('come in pairs where none is enough alone', () => {
    // High wants less than 2 V of 4 V, low more than 1.42 V of 3 V: 1.1 kohm of 1 % does for the one and leaves
    // 3 · 990 / (990 + 1111) = 1.414 V for the other; a closer lower resistor alone is still at 2.01 V. Both: 1.421 V.
    const wanted = { ...choice, wanted: 1.42 }
    const closer = tighter({ id: 'close', name: 'closer lower', paths: ['lower'], unit: 'ohm' })
    const { changes, pairs, text } = changesOf(block, { high: [number, closer], low: [closer] }, wanted, volts)
    expect(changes.every(({ verdict }) => verdict !== 'holds')).toBe(true)
    expect(pairs.length).toBeGreaterThan(0)
    for (const { puts } of pairs) expect(after(wanted, puts).verdict).toBe('holds')
    expect(text).toMatch(/^No single change is enough; [^()]+ \([^()]+\) and [^()]+ \([^()]+\) together are\./)
    expect(pairs[0]!.name).toMatch(/^[^()]+ \([^()]+\) and [^()]+$/)
  })

  it('put what changes the task itself behind all others, and name it first only where nothing else is enough', () => {
    const all = { high: [{ ...number, isTask: true } as const, up, part] }
    const { changes, text } = changesOf(block, all, choice, volts)
    expect(changes.map(({ id }) => id)).toEqual(['up', 'part', 'number'])
    expect(changes.at(-1)!.verdict).toBe('holds')
    expect(text).toMatch(/^With larger upper/)
    const alone = changesOf(block, { high: [{ ...number, isTask: true }, part] }, choice, volts)
    expect(alone.changes.map(({ id }) => id)).toEqual(['part', 'number'])
    expect(alone.text).toMatch(/^With upper of/)
  })

  it('try first, and put first where it is enough, what costs no part', () => {
    const remedies = { high: [up, part, { ...number, isFree: true } as const] }
    const { changes, text } = changesOf(block, remedies, choice, volts)
    expect(changes.map(({ id }) => id)).toEqual(['number', 'up', 'part'])
    expect(text).toMatch(/^With upper of/)
    const { untried } = changesOf(block, remedies, choice, volts, { checks: 1 })
    expect(untried).toEqual(['larger upper', 'other'])
  })

  it('give every row its turn where the checks run out', () => {
    // Both rows fail, the low one by more: what the high one knows best is tried before what that knows last.
    const both = { ...choice, wanted: 1.6 }
    const { untried } = changesOf(block, { low: [down, close, up], high: [number] }, both, volts, { checks: 9 })
    expect(untried).not.toContain('upper of')
    expect(untried).toContain('larger upper')
  })

  it('are none where everything holds', () => {
    expect(changesOf(block, remedies, { upper: '1.1 kohm ±1 %', lower: '1 kohm ±1 %' }, volts)).toEqual({
      changes: [],
      pairs: [],
      untried: [],
      text: 'Everything holds.',
    })
  })

  it('stop at the number of checks that is allowed, and say so', () => {
    const { untried, text } = look({ checks: 1 })
    expect(untried.length).toBeGreaterThan(0)
    expect(text).toContain('Not tried: ')
  })

  it('go no further for a row that they cannot mend than the others need, where that breaks something', () => {
    // No resistor leaves a nanovolt. 2 V · (1010 + 0.99 R) are 4 V · 1010 at 1.02 kohm; beyond some 9 kohm nothing sees 0.3 V of 3 V.
    const meter = blockOf<Choice, typeof volts, any>({
      ...block,
      setup: (read) => {
        const { rows, ...words } = block.setup(read)
        const [high, low] = rows as [BlockRow, BlockRow]
        const seen = { ...low, id: 'seen', name: 'seen', limit: 0.3 } as BlockRow
        return { rows: [{ ...high, id: 'none', limit: 1e-9 } as BlockRow, high, seen], ...words }
      },
    })
    const wide = { upper: '680 ohm ±1 %', lower: '1 kohm ±1 %' }
    const { changes } = changesOf(meter, { none: [up], high: [up] }, wide, volts)
    expect(changes.map(({ text }) => text)).toEqual(['1.1 kohm ±1 %'])
    expect(changes[0]!.breaks).toEqual([])
    expect(changes[0]!.mends.map(({ id }) => id)).toEqual(['high'])
  })

  it('what has no way here is not among those that were not tried', () => {
    const none = { ...number, id: 'none', name: 'fewer of kind 5', rungs: () => [] }
    const { untried } = changesOf(block, { high: [up, part, none] }, choice, volts, { checks: 0 })
    expect(untried).toEqual(['larger upper', 'other'])
  })
})

describe('choosing', () => {
  const candidates = ['910 ohm', '1 kohm', '1.1 kohm', '1.2 kohm', '1.3 kohm', '-1 ohm'].map((ohms) => ({
    upper: `${ohms} ±1 %`,
    lower: '1 kohm ±1 %',
  }))

  it('takes the largest least slack, and gives for every other the reason', () => {
    const { choices, rejected, beaten, untried } = choose(block, candidates, volts, { most: 2 })
    // Slack of the high limit grows with the upper resistor, that of the low one falls: by hand 1.2 kohm is best.
    const least = (ohms: number) =>
      Math.min((2 - (4 * 1010) / (1010 + 0.99 * ohms)) / 2, (3 * 990) / (990 + 1.01 * ohms) - 1)
    const best = [1100, 1200, 1300].sort((a, b) => least(b) - least(a))
    expect(choices.map((one) => Number.parseFloat(one.choice.upper) * 1000)).toEqual(best.slice(0, 2))
    expect(rejected.map(({ choice }) => choice.upper)).toEqual(['910 ohm ±1 %', '-1 ohm ±1 %'])
    expect(rejected.map(({ row }) => row)).toEqual(['high', 'upper'])
    expect([beaten, untried]).toEqual([2, 0])
  })

  it('gives what it turned down with the nearest first', () => {
    // 4 V over R_u and 1 kohm is more than 2 V below 1 kohm, by less the nearer; 1.01 kohm fails only by its tolerance.
    const far = ['-1 ohm', '500 ohm', '990 ohm', '910 ohm', '1.01 kohm', '1.005 kohm']
    const of = far.map((ohms) => ({ upper: `${ohms} ±1 %`, lower: '1 kohm ±1 %' }))
    const { rejected } = choose(block, of, volts)
    const names = rejected.map(({ choice }) => choice.upper.replace(' ±1 %', ''))
    expect(names).toEqual(['1.01 kohm', '1.005 kohm', '990 ohm', '910 ohm', '500 ohm', '-1 ohm'])
    // 4·1010/(1010 + 0.99·1010) V is 2.0100 V.
    expect(rejected[0]!.lack).toBeCloseTo(4 / 1.99 / 2 - 1, 10)
  })

  it('takes the cheapest where a cost is given, and counts what it did not try', () => {
    const cost = ({ upper }: Choice) => Number.parseFloat(String(upper)) * (String(upper).includes('k') ? 1000 : 1)
    expect(choose(block, candidates, volts, { most: 1, cost }).choices[0]!.choice.upper).toBe('1.1 kohm ±1 %')
    const few = choose(block, candidates, volts, { checks: 1 })
    expect(few.choices.length + few.beaten + few.untried).toBe(4)
  })
})

describe('a search at a glance', () => {
  const text = { unit: 'V', sense: 'at least', catches: [], name: 'level' } as const
  let held = 0
  /** A level that needs 3 V. */
  const level = blockOf<{ readonly volts: Input }, null, number>({
    name: 'level',
    read: ({ volts }) => readSpread(volts, { field: 'volts', unit: 'V', min: 0, max: 100 }).nominal,
    at: (read) => read,
    setup: (volts) => {
      const hold = () => {
        held++
        return plainMargin({ ...text, id: 'level' }, volts, 3)
      }
      const estimate = () => ({ nominal: volts, worst: volts, limit: 3, slack: volts - 3 })
      return {
        rows: [{ ...text, id: 'level', kind: 'own', hold, estimate }],
        cautions: () => [],
        report: () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] }),
      }
    },
  })
  const higher = solved({
    id: 'volts',
    name: 'more',
    path: 'volts',
    unit: 'V',
    from: (read) => read,
    to: 10,
    digits: 2,
  })

  it('holds in full what it proposes and little beside it: of a level to be raised from 1 V the first that is enough', () => {
    held = 0
    const { changes } = changesOf(level, { level: [higher] }, { volts: 1 }, null)
    expect(changes.map(({ text, verdict }) => [text, verdict])).toEqual([['3 V', 'holds']])
    // As it was, those of the way that are enough at a glance, and what is proposed.
    expect(held).toBeLessThan(9)
  })
})
