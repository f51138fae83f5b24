import type { DecisionRule, Margin, MarginText } from '@ohmward/budget'
import type { Findings } from '../rail/findings.js'
import { marginInside } from '../search/inside.js'
import type { Plan } from '../search/plan.js'

/** Holds a value of a board against its limit, over all parts and conditions. */
export type Hold = (
  text: MarginText,
  value: (findings: Findings) => number,
  limit: number | ((findings: Findings) => number),
) => Margin

/** Prepares a plan for holding margins. */
export const holding =
  (plan: Plan, rule: DecisionRule): Hold =>
  (text, value, limit) =>
    marginInside(plan, { ...text, value, limit }, rule)

/** A limit with the text of its margin. */
export interface Limit {
  readonly text: MarginText
  readonly limit: number
}

/**
 * Holds one value against several limits of one sense. The hardest comes first: where that surely holds, each other one holds at the
 * same worst case, by as much more as its limit is further away.
 */
export function holdAll(hold: Hold, value: (findings: Findings) => number, limits: readonly Limit[]): Margin[] {
  const sign = limits[0]?.text.sense === 'at least' ? 1 : -1
  const margins: Margin[] = []
  let hardest: Margin | undefined
  for (const { text, limit } of [...limits].sort((a, b) => sign * (b.limit - a.limit))) {
    const further = hardest && sign * (hardest.limit - limit)
    if (hardest?.verdict === 'holds' && (hardest.probability ?? 1) === 1) {
      const { slack, nominalSlack } = hardest
      margins.push({ ...hardest, ...text, limit, slack: slack + further!, nominalSlack: nominalSlack + further! })
    } else {
      hardest = hold(text, value, limit)
      margins.push(hardest)
    }
  }
  return margins
}
