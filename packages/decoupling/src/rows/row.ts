import type { DecisionRule, Margin, OwnRow, RowEstimate, RowText } from '@ohmward/budget'
import type { RailReading } from '../rail/reading.js'
import { glanceAt } from '../search/glance.js'
import { marginInside } from '../search/inside.js'
import type { Plan } from '../search/plan.js'
import { effort, type Watched } from '../waveform/inside.js'

/** A value of a board. */
export type Value = (reading: RailReading) => number

/** A value of a board held against a limit, over all parts and conditions, inside their ranges too. */
export const over = (plan: Plan, text: RowText, value: Value, limit: number | Value): OwnRow => ({
  kind: 'own',
  ...text,
  hold: (rule) => marginInside(plan, { ...text, value, limit }, rule),
  estimate: () => glanceAt(plan, text.sense, value, limit),
})

/** A limit with the words of its row. */
export interface Limit {
  readonly text: RowText
  readonly limit: number
}

/**
 * One value held against several limits of one sense. The hardest comes first: where that surely holds, each other one holds at the
 * same worst case, by as much more as its limit is further away.
 *
 * @param estimate - what the value may come to against a limit, at a glance
 */
export function overAll(
  limits: readonly Limit[],
  hold: (one: Limit, rule: DecisionRule) => Margin,
  estimate: (one: Limit) => RowEstimate,
): OwnRow[] {
  const sign = limits[0]?.text.sense === 'at least' ? 1 : -1
  let before: Held | undefined
  return [...limits]
    .sort((a, b) => sign * (b.limit - a.limit))
    .map((one) => {
      const harder = before
      before = remembered((rule) => {
        const hardest = harder?.(rule)
        return hardest?.verdict === 'holds' && (hardest.probability ?? 1) === 1
          ? further(hardest, one, sign * (hardest.limit - one.limit))
          : hold(one, rule)
      })
      return { kind: 'own', ...one.text, hold: before, estimate: () => estimate(one) }
    })
}

type Held = (rule: DecisionRule) => Margin

const further = (hardest: Margin, { text: { causes: _, ...text }, limit }: Limit, by: number): Margin => ({
  ...hardest,
  ...text,
  limit,
  slack: hardest.slack + by,
  nominalSlack: hardest.nominalSlack + by,
})

/** A margin that is held once for each rule: who asks again learns too that it couldn't be followed to its end. */
function remembered(hold: Held): Held {
  const known = new Map<number | undefined, Watched<Margin>>()
  return (rule) => {
    const { accept } = rule
    const held = known.get(accept) ?? { result: hold(rule), isBounded: effort.isBounded, isOpen: effort.isOpen }
    known.set(accept, held)
    effort.isBounded ||= held.isBounded
    effort.isOpen ||= held.isOpen
    return held.result
  }
}
