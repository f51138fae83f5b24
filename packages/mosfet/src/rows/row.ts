import {
  type BlockRow,
  type DecisionRule,
  estimateRow,
  holdRow,
  type LimitRow,
  type Margin,
  type RowText,
} from '@ohmward/budget'
import type { PlaceSymbol } from '../chain/follow.js'
import { readingOf } from '../chain/reading.js'
import type { Switch } from '../chain/switch.js'
import type { Heat } from '../junction/heat.js'

/** A margin: a value of the chain, its limit, and on which side of it the value must stay. */
export interface MosfetRow extends RowText {
  readonly value: PlaceSymbol
  readonly limit: PlaceSymbol | number
  /** Why the value says nothing, where that is so: a row that holds isn't sure then. */
  readonly doubt?: () => string | undefined
}

/** What a row says of itself alone, where it is held in a way of its own. */
export const textOf = ({ value: _, limit: __, doubt: ___, ...text }: MosfetRow): RowText => text

/** The symbols that a row names. */
export const symbolsOf = ({ value, limit }: MosfetRow): PlaceSymbol[] =>
  typeof limit === 'number' ? [value] : [value, limit]

/** A row at the inputs and conditions of the switch. */
export const limitRow = (row: MosfetRow, circuit: Switch): LimitRow => ({
  ...row,
  kind: 'limit',
  reading: readingOf(circuit, symbolsOf(row)),
})

/** A row as the engines take it. One that starts from the hot junction is held after that was found. */
export function blockRow(row: MosfetRow, circuit: Switch, heat: Heat): BlockRow {
  const limit = limitRow(row, circuit)
  if (!circuit.behind(symbolsOf(row)).has('T_hot')) return limit
  const hold = (rule: DecisionRule): Margin => holdRow({ ...limit, at: { T_hot: heat.start(rule) } }, rule).margin
  return { ...textOf(row), kind: 'own', hold, estimate: () => estimateRow({ ...limit, at: { T_hot: heat.start({}) } }) }
}
