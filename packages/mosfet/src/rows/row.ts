import {
  type BlockRow,
  type DecisionRule,
  estimateRow,
  extremes,
  holdRow,
  type LimitRow,
  type Margin,
  type RowText,
} from '@ohmward/budget'
import { nominalOf } from '@ohmward/quantity'
import type { PlaceSymbol } from '../chain/follow.js'
import type { MosfetInputSet, MosfetSymbol } from '../chain/inputs.js'
import { readingOf } from '../chain/reading.js'
import type { Switch } from '../chain/switch.js'
import type { Heat } from '../junction/heat.js'

/** A margin: a value of the chain, its limit, and on which side of it the value must stay. */
export interface MosfetRow extends RowText {
  readonly value: PlaceSymbol
  readonly limit: PlaceSymbol | number
}

/** What a row says of itself alone, where it is held in a way of its own. */
export const textOf = ({ value: _, limit: __, ...text }: MosfetRow): RowText => text

/** The symbols that a row names. */
export const symbolsOf = ({ value, limit }: MosfetRow): PlaceSymbol[] =>
  typeof limit === 'number' ? [value] : [value, limit]

/** A row at the inputs and conditions of the switch. */
export const limitRow = (row: MosfetRow, circuit: Switch): LimitRow => ({
  ...row,
  kind: 'limit',
  reading: readingOf(circuit, symbolsOf(row)),
})

/**
 * A row as the engines take it. One that starts from the hot junction is held after that was found; one through an edge
 * in which two regimes meet is tried at each cell voltage in full.
 */
export function blockRow(row: MosfetRow, circuit: Switch, heat: Heat, twoRegimes: () => boolean): BlockRow {
  const behind = circuit.behind(symbolsOf(row))
  const limit: LimitRow = {
    ...limitRow(row, circuit),
    ...(behind.has('I_lim') && { inFull: () => (twoRegimes() ? ['V_oc'] : []) }),
  }
  if (!behind.has('T_hot')) return limit
  const hold = (rule: DecisionRule): Margin => holdRow({ ...limit, at: { T_hot: heat.start(rule) } }, rule).margin
  return { ...textOf(row), kind: 'own', hold, estimate: () => estimateRow({ ...limit, at: { T_hot: heat.start({}) } }) }
}

/**
 * Whether the tolerances let a transistor's gain limit an edge on some boards and not on others: then two regimes meet,
 * and no single input tells where the worst case lies.
 */
export function hasTwoRegimes(circuit: Switch): boolean {
  const { topology, inputs, row, place: y } = circuit
  if (topology.limited === 'neither') return false
  const onward = topology.limited === 'on'
  // Of the currents that the gate would take, the largest and the smallest.
  const ofLargest = () => {
    circuit.edges()
    return y.I_lim - (onward ? y.V_GS / y.R_gon : y.V_GShigh / y.R_goff)
  }
  const ofSmallest = () => {
    circuit.edges()
    return y.I_lim - (onward ? y.V_over / y.R_gon : (y.V_th - y.V_off) / y.R_goff)
  }
  const held: MosfetInputSet = { ...inputs, T_a: nominalOf(inputs.T_a), D: nominalOf(inputs.D) }
  const { lower } = extremes<MosfetSymbol>(held, ofLargest, { row })
  const { upper } = extremes<MosfetSymbol>(held, ofSmallest, { row })
  return lower < 0 && upper > 0
}
