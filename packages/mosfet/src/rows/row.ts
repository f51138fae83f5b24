import { type DecisionRule, extremes, type Margin, type MarginText, marginOf } from '@ohmward/budget'
import type { Input, Spread } from '@ohmward/quantity'
import { conditions, type MosfetSymbol } from '../chain/inputs.js'
import type { PlaceSymbol, Switch } from '../chain/switch.js'

/** A margin: a value of the chain, its limit, and on which side of it the value must stay. */
export interface MosfetRow extends MarginText {
  readonly value: PlaceSymbol
  readonly limit: PlaceSymbol | number
}

/** The symbols that a row names. */
export const symbolsOf = ({ value, limit }: MosfetRow): PlaceSymbol[] =>
  typeof limit === 'number' ? [value] : [value, limit]

/** A row as the engines take it: what it names is calculated in the switch's place. */
export function specOf({ value, limit, ...text }: MosfetRow, circuit: Switch) {
  const { place } = circuit
  const run = circuit.until(typeof limit === 'number' ? [value] : [value, limit])
  return {
    ...text,
    value: () => {
      run()
      return place[value]
    },
    // The engine asks for it right after the value, on the same place.
    limit: typeof limit === 'number' ? limit : () => place[limit],
  }
}

/**
 * Whether the tolerances let a transistor's gain limit an edge on some boards and not on others: then two regimes meet,
 * and no single input tells where the worst case lies.
 */
export function hasTwoRegimes(circuit: Switch): boolean {
  const { topology, inputs, row, place: y } = circuit
  if (topology.limited === 'neither') return false
  const onward = topology.limited === 'on'
  const toSpare = () => {
    circuit.edges()
    return y.I_lim - (onward ? y.V_over / y.R_gon : y.V_under / y.R_goff)
  }
  const held = { ...inputs, T_a: (inputs.T_a as Spread).nominal, D: (inputs.D as Spread).nominal }
  const { lower, upper } = extremes<MosfetSymbol>(held as Record<MosfetSymbol, Input>, toSpare, { row })
  return lower < 0 && upper > 0
}

/** Holds a row against what is behind it; the rest stays nominal, and costs nothing. */
export function heldMargin(line: MosfetRow, circuit: Switch, twoRegimes: boolean, rule: DecisionRule): Margin {
  const { row } = circuit
  const behind = circuit.behind(symbolsOf(line))
  const over = conditions.filter((name) => behind.has(name))
  const inputs = circuit.only(symbolsOf(line))
  const spec = specOf(line, circuit)
  if (!(twoRegimes && behind.has('I_lim'))) return marginOf(spec, { inputs, row, conditions: over, ...rule })
  // Each cell voltage in full, without screening by single inputs.
  const { lower, upper } = circuit.inputs.V_oc as Spread
  const others = over.filter((name) => name !== 'V_oc')
  const at = (V_oc: number): Margin => {
    const margin = marginOf(spec, { inputs: { ...inputs, V_oc }, row, conditions: others, ...rule })
    return { ...margin, at: { V_oc, ...margin.at } }
  }
  return [lower, (lower + upper) / 2, upper].map(at).reduce((a, b) => (b.slack < a.slack ? b : a))
}
