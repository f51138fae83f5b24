import { exact, plusMinus } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import {
  blockOf,
  causesFirst,
  changed,
  clipText,
  condition,
  dangerFirst,
  derive,
  estimateLimit,
  estimateRow,
  faultText,
  formula,
  furtherOf,
  furtherTexts,
  furthestStation,
  holdRow,
  noiseSpread,
  type PlainRow,
  plainMargin,
  preferred,
  put,
  relativeSlack,
  solved,
  stoppedShort,
  tighter,
  tightestText,
  verdictOf,
  worstStation,
  worthText,
} from '../src/index.js'

const any = (value: unknown) => value as never
const text = { id: 'level', name: 'level', unit: 'V', sense: 'at least', catches: [] } as const
const row: PlainRow = { ...text, kind: 'plain', worst: 2, limit: 1 }
const margin = plainMargin(text, 2, 1)
const move = { id: 'r', name: 'another resistor', path: 'resistor', unit: 'ohm' } as const
const over = { inputs: { V: plusMinus(3, 1) }, conditions: ['V'] } as const
const one = () => 1
const readError = { name: 'x', kind: 'share', size: 1, perKelvin: 0 } as const
const referred = { shift: '', share: '', ofCurrent: (x: number) => x }
const doubled = formula({
  symbol: 'W',
  quantity: 'twice the voltage',
  unit: 'V',
  inputs: { V: ['V', 0, 10] },
  expression: '2 * V',
  source: 'arithmetic',
  compute: ({ V }) => 2 * V,
})

describe('what a block is written with', () => {
  it.each<[string, () => unknown, string]>([
    ['a block without a name', () => blockOf(any({ read: one, setup: one, at: one })), 'block'],
    ['a row with a misspelled key', () => holdRow({ ...row, ...{ nominl: 2 } }), 'row'],
    ['a row of no kind', () => holdRow(any({ ...row, kind: 'plane' })), 'row.kind'],
    ['a row whose side is unknown', () => estimateRow(any({ ...row, sense: 'below' })), 'row.sense'],
    ['a limit that is no number', () => holdRow({ ...row, limit: Number.NaN }), 'row.limit'],
    ['a rule that is misspelled', () => holdRow(row, any({ acept: 0.9 })), 'rule'],
    ['a row that answers with no margin', () => holdRow({ ...text, kind: 'own', hold: () => any(1) }), 'level.hold()'],
    [
      'a glance that is none',
      () => estimateRow({ ...text, kind: 'own', hold: () => margin, estimate: () => any(1) }),
      'level.estimate()',
    ],
    ['rows that are no list', () => clipText(any(row)), 'rows'],
    [
      'a reading without its chain',
      () => clipText([any({ ...text, kind: 'limit', reading: {}, value: 'V', limit: 1 })]),
      'rows[0].reading',
    ],
    ['noise below nothing', () => noiseSpread(-1e-6), 'standardDeviation'],
    ['a condition without an end', () => condition(any({ from: 1 }), 2), 'ends'],
    ['a condition that is wanted nowhere', () => condition({ from: 1, to: 2 }, Number.NaN), 'wanted'],
    ['conditions that are no inputs', () => worstStation(any({ ...over, conditions: ['W'] }), one, one), 'conditions'],
    ['a truth that is no number', () => furthestStation(over, ({ V }) => V, any('3')), 'truth'],
    ['a glance to no side', () => estimateLimit(over, any('below'), one), 'sense'],
    ['a value that is not given', () => derive([doubled], {}, { W: 2 }), 'inputs.V'],
    [
      'a formula without inputs',
      () => derive([any(Object.assign(() => 1, { ...doubled }, { inputs: null }))], {}, { W: 2 }),
      'formulas[0].inputs',
    ],
    ['an endless result of finite inputs', () => derive([doubled], { V: 1 }, { W: Infinity }), 'computed.W'],
    ['puts that are none', () => changed({ choice: {}, conditions: {} }, any(3)), 'puts'],
    ['a series that there is none of', () => preferred({ ...move, towards: 'up', series: any('E7') }), 'series'],
    ['neither up nor down', () => preferred({ ...move, towards: any('left') }), 'towards'],
    ['a number that is solved for nothing', () => solved({ ...move, to: Number.NaN }), 'to'],
    ['a misspelled key of a change', () => put(any({ id: 'p', name: 'p', put: {}, text: '' })), 'change'],
    ['a class of no width', () => tighter({ id: 't', name: 't', paths: ['r'], unit: 'ohm', classes: [0] }), 'classes'],
    ['an error of no kind', () => furtherTexts([{ ...readError, kind: any('power') }], 'it stays'), 'further[0].kind'],
    ['an error below nothing', () => furtherOf([{ ...readError, size: -1 }], referred), 'further[0].size'],
  ])('%s is refused', (_, act, field) => {
    expect(refusalOf(act).field).toBe(field)
  })
})

describe('words about margins and budgets', () => {
  it.each<[string, () => unknown, string]>([
    ['a slack that is no number', () => relativeSlack({ ...margin, slack: Number.NaN }), 'margin.slack'],
    ['a verdict that there is none of', () => verdictOf([margin, { verdict: any('maybe') }]), 'margins[1].verdict'],
    ['no verdict', () => faultText(any({ ...margin, verdict: undefined })), 'margin.verdict'],
    ['a margin without a name', () => tightestText(any({ ...margin, name: undefined })), 'margin.name'],
    ['no cautions', () => dangerFirst(any(undefined)), 'cautions'],
    ['a caution without words', () => dangerFirst([any({ id: 'hot' })]), 'cautions[0].text'],
    ['no way to tell a cause', () => causesFirst([1], () => 'fails', any(undefined)), 'isCause'],
    [
      'a budget without an interval',
      () => worthText(any({ quantity: 'q', unit: 'V', linear: { level: 0.95 } }), 1),
      'budget.linear.interval',
    ],
    [
      'a budget whose extremes are none',
      () => worthText(any({ quantity: 'q', unit: 'V', linear: { level: 0.95, interval: [0, 1] }, extremes: 3 }), 1),
      'budget.extremes',
    ],
    [
      'a budget with one extreme alone',
      () =>
        worthText(
          any({ quantity: 'q', unit: 'V', linear: { level: 0.95, interval: [0, 1] }, extremes: { lower: 1 } }),
          1,
        ),
      'budget.extremes',
    ],
    ['a list of something else', () => stoppedShort([any({ unit: 'V' })]), 'budgets[0].quantity'],
    ['one budget in the place of a list', () => stoppedShort(any({})), 'budgets'],
  ])('%s is refused', (_, act, field) => {
    expect(refusalOf(act).field).toBe(field)
  })

  it('take what they are made of', () => {
    expect(verdictOf([margin])).toBe('holds')
    expect(relativeSlack(margin)).toBe(1)
    expect(noiseSpread(0)).toEqual(exact(0))
    expect(holdRow(row).margin.slack).toBe(1)
  })
})
