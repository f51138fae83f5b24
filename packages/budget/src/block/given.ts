import { demand, demandFinite, demandShape, type Shape } from '@ohmward/quantity'
import { demandFormulas } from '../formula/given.js'
import { demandSense } from '../margin/given.js'
import type { DecisionRule } from '../margin/margin.js'
import { readRule } from '../margin/verdict.js'
import { demandList, knownOptions } from '../model/options.js'
import type { BlockRow, Reading } from './rows.js'

/*
 * What the engines of blocks are given, looked at once: a row, and the reading that it is of.
 */

/** Rows that were found to be some, and readings. */
const known = /*#__PURE__*/ new WeakSet<object>()
const chains = /*#__PURE__*/ new WeakSet<object>()

const about: Shape = {
  kind: 'a text',
  id: 'a text',
  name: 'a text',
  unit: 'a text',
  sense: 'a text',
  catches: 'a list of texts',
  causes: '?a list of texts',
  doubt: '?a function',
}

/** What each kind of row says of itself. */
const shapes: Readonly<Record<BlockRow['kind'], () => Shape>> = {
  limit: () => ({
    ...about,
    reading: 'an object',
    at: '?an object',
    value: 'anything',
    limit: 'anything',
  }),
  error: () => ({
    ...about,
    reading: 'an object',
    at: '?an object',
    shown: 'a function',
    fill: '?a function',
    truth: 'a finite number',
    allowed: 'a finite number',
    station: '?a function',
    budget: 'an object',
  }),
  plain: () => ({ ...about, worst: 'a finite number', limit: 'a finite number', nominal: '?a finite number' }),
  own: () => ({ ...about, hold: 'a function', estimate: '?a function', isError: '?anything' }),
}
const complete = /*#__PURE__*/ new Map<string, Shape>()

const budgets: Shape = { name: 'a text', symbol: 'a text', quantity: 'a text', unit: '?a text' }
const readings: Shape = {
  inputs: 'an object',
  conditions: 'a list of texts',
  row: 'a function',
  follow: 'a function',
  formulas: 'a list',
  groups: '?a list',
}

/** Throws unless it is a row of a block; what was looked at once is known. @throws InputError naming what it says wrongly of itself */
export function demandRow(row: BlockRow, field = 'row'): void {
  if (known.has(row)) return
  demand(typeof row === 'object' && row !== null, { field, value: row, allowed: 'a row of a block' })
  demandShape(row, field, complete.get(row.kind) ?? shapeOf(row.kind, field))
  demandSense(row.sense, `${field}.sense`)
  if (row.kind === 'limit') {
    demandTold(row.value, `${field}.value`)
    if (typeof row.limit === 'number') demandFinite(`${field}.limit`, row.limit)
    else demandTold(row.limit, `${field}.limit`)
  }
  if (row.kind === 'error') demandShape(row.budget, `${field}.budget`, budgets)
  if ('reading' in row) demandReading(row.reading, `${field}.reading`)
  known.add(row)
}

function shapeOf(kind: BlockRow['kind'], field: string): Shape {
  const isKind = typeof kind === 'string' && Object.hasOwn(shapes, kind)
  demand(isKind, { field: `${field}.kind`, value: kind, allowed: Object.keys(shapes).join(', ') })
  const shape = shapes[kind]()
  complete.set(kind, shape)
  return shape
}

/** A number of a reading: the name of its symbol, or a function. */
function demandTold(told: unknown, field: string): void {
  const isTold = typeof told === 'function' || (typeof told === 'string' && told !== '')
  demand(isTold, { field, value: told, allowed: 'a symbol of the reading, or a function of its values' })
}

/** Throws unless it is a chain made ready; it may have more than the engines ask for. */
function demandReading(reading: Reading, field: string): void {
  if (chains.has(reading)) return
  const { inputs, conditions, row, follow, formulas, groups } = reading
  demandShape({ inputs, conditions, row, follow, formulas, groups }, field, readings)
  demandFormulas(formulas, `${field}.formulas`)
  chains.add(reading)
}

/** Throws unless margins are decided so: a probability above 0 and at most 1, or none. @throws InputError */
export function demandRule(rule: DecisionRule): void {
  const { accept } = knownOptions(rule, ['accept'], 'rule')
  if (accept !== undefined) readRule(accept)
}

/** Throws unless it is a list of rows. @throws InputError */
export function demandRows(rows: readonly BlockRow[], field = 'rows'): void {
  demandList(field, rows)
  rows.forEach((row, i) => {
    demandRow(row, `${field}[${i}]`)
  })
}
