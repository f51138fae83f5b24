import { type DecisionRule, extremes, type Margin, marginOf } from '@ohmward/budget'
import type { Input, Spread } from '@ohmward/quantity'
import { inputsBehind, type Switch } from '../chain/index.js'
import { conditions, type MosfetInputSet, type MosfetInputs, type MosfetSymbol, onlyThese, row } from '../inputs.js'
import { driveMargins } from './drive.js'
import { edgeMargins } from './edges.js'
import { gateMargins } from './gate.js'
import { offMargins } from './off.js'
import { ratingMargins } from './ratings.js'
import type { MarginContext, MosfetMargin } from './spec.js'

export { heatMargins } from './heat.js'
export { type HottestCase, hottestCase } from './junction.js'

/**
 * Every margin but those of the junction's heat.
 *
 * @param hotCelsius - junction temperature from which edges start and at which the threshold is lowest
 */
export function marginSpecs(context: MarginContext, hotCelsius: number): MosfetMargin[] {
  return [
    ...gateMargins(context),
    ...driveMargins(context),
    ...offMargins(context, hotCelsius),
    ...ratingMargins(context, hotCelsius),
    ...edgeMargins(context, hotCelsius),
  ]
}

/**
 * Whether the tolerances let a transistor's gain limit an edge on some boards and not on others: then two regimes meet,
 * and no single input tells where the worst case lies.
 */
export function hasTwoRegimes({ topology, drive, times }: Switch, inputs: MosfetInputSet): boolean {
  if (topology.limited === 'neither') return false
  const onward = topology.limited === 'on'
  const toSpare = (x: MosfetInputs) => {
    const { I_lim, R_gon, R_goff } = drive(x)
    const { V_over, V_under } = times(x)
    return I_lim - (onward ? V_over / R_gon : V_under / R_goff)
  }
  const held = { ...inputs, T_a: (inputs.T_a as Spread).nominal, D: (inputs.D as Spread).nominal }
  const { lower, upper } = extremes(held as Record<MosfetSymbol, Input>, (x) => toSpare(x as MosfetInputs), { row })
  return lower < 0 && upper > 0
}

/** Holds a margin against what is behind it; the rest stays nominal, and costs nothing. */
export function heldMargin(
  { reads, ...spec }: MosfetMargin,
  circuit: Switch,
  inputs: MosfetInputSet,
  twoRegimes: boolean,
  rule: DecisionRule,
): Margin {
  const behind = inputsBehind(circuit, reads)
  const over = conditions.filter((name) => behind.has(name))
  const held = onlyThese(inputs, behind)
  if (!(twoRegimes && behind.has('I_lim'))) return marginOf(spec, { inputs: held, row, conditions: over, ...rule })
  // Each cell voltage in full, without screening by single inputs.
  const { lower, upper } = inputs.V_oc as Spread
  const others = over.filter((name) => name !== 'V_oc')
  const at = (V_oc: number): Margin => {
    const margin = marginOf(spec, { inputs: { ...held, V_oc }, row, conditions: others, ...rule })
    return { ...margin, at: { V_oc, ...margin.at } }
  }
  return [lower, (lower + upper) / 2, upper].map(at).reduce((a, b) => (b.slack < a.slack ? b : a))
}
