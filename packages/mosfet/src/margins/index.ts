import { type DecisionRule, type Margin, marginOf } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import { inputsBehind, type Switch } from '../chain/index.js'
import { conditions, type MosfetInputSet, onlyThese, row } from '../inputs.js'
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
    ...ratingMargins(context),
    ...edgeMargins(context, hotCelsius),
  ]
}

/** Holds a margin against what is behind it; the rest stays nominal, and costs nothing. */
export function heldMargin(
  { reads, ...spec }: MosfetMargin,
  circuit: Switch,
  inputs: MosfetInputSet,
  rule: DecisionRule,
): Margin {
  const behind = inputsBehind(circuit, reads)
  const over = conditions.filter((name) => behind.has(name))
  const held = onlyThese(inputs, behind)
  if (!behind.has('I_lim')) return marginOf(spec, { inputs: held, row, conditions: over, ...rule })
  // Where a transistor's gain may limit an edge, two regimes meet: no screening by single inputs, but each end in full.
  const { lower, upper } = inputs.V_oc as Spread
  const at = (V_oc: number): Margin => {
    const margin = marginOf(spec, {
      inputs: { ...held, V_oc },
      row,
      conditions: over.filter((name) => name !== 'V_oc'),
      ...rule,
    })
    return { ...margin, at: { V_oc, ...margin.at } }
  }
  return [lower, (lower + upper) / 2, upper].map(at).reduce((a, b) => (b.slack < a.slack ? b : a))
}
