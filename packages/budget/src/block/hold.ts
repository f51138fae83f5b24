import { format, type Input, nominalOf } from '@ohmward/quantity'
import type { Budget } from '../budget/budget.js'
import { budgetOf } from '../budget/make-budget.js'
import { behind } from '../formula/chain.js'
import type { Margin } from '../margin/assessment.js'
import { demandMargin } from '../margin/given.js'
import { type DecisionRule, errorMargin, furthestStation, limitMargin, plainMargin } from '../margin/margin.js'
import { worstText } from '../margin/verdict.js'
import { demandRow, demandRows, demandRule } from './given.js'
import type { Simulate } from './options.js'
import type { BlockRow, ErrorRow, InputSet, LimitRow, Place, Told } from './rows.js'

/** A row held: its margin, and its budget where it has one. */
export interface HeldRow {
  readonly margin: Margin
  readonly budget?: Budget
}

/** Checks one row: its worst case against its limit. @throws InputError */
export function holdRow(row: BlockRow, rule: DecisionRule = {}, simulation: Simulate = false): HeldRow {
  demandRow(row)
  demandRule(rule)
  switch (row.kind) {
    case 'limit':
      return { margin: holdLimit(row, rule) }
    case 'error':
      return holdError(row, rule, simulation)
    case 'plain':
      return { margin: unlessDoubted(plainMargin(row, row.worst, row.limit, row.nominal), row) }
    case 'own': {
      const margin = row.hold(rule)
      demandMargin(margin, `${row.id}.hold()`)
      return { margin }
    }
  }
}

/** Why a reading may clip, in words: the first of these rows that doesn't hold; undefined where each does. @throws InputError */
export function clipText(rows: readonly LimitRow[]): string | undefined {
  demandRows(rows)
  for (const row of rows) {
    const { margin } = holdRow(row)
    if (margin.verdict === 'holds') continue
    const against = `${worstText(margin)} against ${format(margin.limit, margin.unit, { digits: 3 })}`
    return `the reading may clip, and then nothing is known of its error: ${row.name}, ${against}`
  }
  return undefined
}

/** Where only symbols are asked for, what isn't behind them stays at its nominal value and costs nothing. */
function inputsBehind({ reading, at, value, limit }: LimitRow): InputSet {
  const inputs: InputSet = { ...reading.inputs, ...at }
  if (typeof value !== 'string' || typeof limit === 'function') return inputs
  const reach = behind(reading.formulas, typeof limit === 'string' ? [value, limit] : [value])
  const held: Record<string, Input> = {}
  for (const [symbol, input] of Object.entries(inputs)) held[symbol] = reach.has(symbol) ? input : nominalOf(input)
  return held
}

/** A model of a value or a limit. */
export const modelOf = (told: number | Told): ((y: Place) => number) =>
  typeof told === 'number' ? () => told : typeof told === 'string' ? (y) => y[told]! : told

/** Margins of limit rows by the row: an error asks of another row whether its reading may clip. */
const kept = new WeakMap<LimitRow, { readonly accept: number | undefined; readonly margin: Margin }>()

function holdLimit(row: LimitRow, rule: DecisionRule): Margin {
  const known = kept.get(row)
  if (known && known.accept === rule.accept) return known.margin
  const margin = limitOf(row, rule)
  kept.set(row, { accept: rule.accept, margin })
  return margin
}

function limitOf(row: LimitRow, rule: DecisionRule): Margin {
  const { reading } = row
  const { follow, conditions, groups = [] } = reading
  const value = modelOf(row.value)
  const limit = modelOf(row.limit)
  const inputs = inputsBehind(row)
  const pair = (x: Place, seen: { value: number; limit: number }) => {
    const y = follow(x)
    seen.value = value(y)
    seen.limit = limit(y)
  }
  const over = conditions.filter((name) => typeof inputs[name] === 'object')
  const margin = limitMargin(row, pair, { inputs, row: reading.row, conditions: over, groups, ...rule })
  return unlessDoubted(margin, row)
}

/** A margin that holds by a value that says nothing: it isn't sure, the value isn't known, and neither is how many boards have it. */
function unlessDoubted(margin: Margin, row: Pick<LimitRow, 'doubt'>): Margin {
  const reason = margin.verdict === 'holds' && row.doubt?.()
  if (!reason) return margin
  const { probability: _, ...rest } = margin
  return { ...rest, verdict: 'not sure', reason, worst: rest.limit, slack: 0, isUnknown: true }
}

function holdError(row: ErrorRow, rule: DecisionRule, simulation: Simulate): HeldRow {
  const { reading, at, truth, allowed, shown, fill, unit, budget: about } = row
  const { row: put, conditions, groups } = reading
  const inputs = { ...reading.inputs, ...at }
  const station = row.station?.() ?? furthestStation({ inputs, row: put, conditions }, shown, truth)
  const budget = budgetOf({
    symbol: about.symbol,
    quantity: about.quantity,
    unit: about.unit ?? unit,
    inputs: station.inputs,
    model: shown,
    row: put,
    ...(fill && { fill }),
    ...(groups && { groups }),
    extremes: station.extremes,
    simulation: simulation && { ...simulation, limits: { lower: truth - allowed, upper: truth + allowed } },
  })
  const doubt = row.doubt?.()
  const doubted = doubt === undefined ? station : { ...station, doubts: [...station.doubts, doubt] }
  return { budget, margin: errorMargin(row, truth, allowed, doubted, budget, rule) }
}
