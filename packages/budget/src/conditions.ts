import type { Input, Spread } from '@ohmward/quantity'
import type { Extremes } from './budget.js'
import { briefEvaluator, compileInputs } from './evaluate.js'
import { extremes } from './extremes.js'
import type { Inputs, Model, Row } from './model.js'

/** Inputs of which some are conditions to cover: a rail, a temperature. */
export interface Circumstances<K extends string> {
  readonly inputs: Inputs<K>
  readonly row?: Row<K>
  /** The inputs that are conditions; each is a spread between the ends of its range. */
  readonly conditions: readonly NoInfer<K>[]
}

/** The extremes over the parts' limits at one set of conditions. */
export interface Station<K extends string> {
  /** All inputs, the conditions fixed. */
  readonly inputs: Record<K, Input>
  /** The conditions. */
  readonly at: Readonly<Record<string, number>>
  readonly extremes: Extremes
  /** Why these may not be the worst conditions; empty otherwise. */
  readonly doubts: readonly string[]
}

interface Candidate {
  readonly at: Readonly<Record<string, number>>
  readonly corner: boolean
  /** Reach of the output as far as one input at a time tells. */
  readonly reach: number
}

/**
 * The worst of the conditions, and the extremes over the parts' limits there.
 *
 * Every combination of the conditions' ends, and the middle of all, is screened by moving one part at a time; the true extremes are
 * then sought at the worst, and at every other that the screening can't rule out. With the conditions fixed, what drifts
 * with temperature is linear in its coefficient and has a slope that can be followed.
 *
 * @param badness - how bad a smallest and a largest output are; the largest badness decides
 */
export function worstStation<K extends string>(
  { inputs, row, conditions }: Circumstances<K>,
  model: Model<K>,
  badness: (lower: number, upper: number) => number,
): Station<K> {
  const candidates = screen({ inputs, ...(row && { row }), conditions }, model, badness)
  let worst: { station: Station<K>; badness: number } | undefined
  for (const { at, corner, reach } of candidates) {
    if (worst && reach <= worst.badness + 1e-9 * Math.abs(worst.badness)) break
    const here = { ...inputs, ...at } as Record<K, Input>
    const found = extremes(here, model as Model<NoInfer<K>>, row ? { row } : {})
    const bad = badness(found.lower, found.upper)
    if (worst && bad <= worst.badness) continue
    const doubts = corner ? [] : [`the worst case lies inside the range of ${Object.keys(at).join(' or ')}`]
    worst = { station: { inputs: here, at, extremes: found, doubts }, badness: bad }
  }
  return worst!.station
}

/** All combinations of the conditions' ends and the middle of all, the worst first. */
function screen<K extends string>(
  { inputs, row, conditions }: Circumstances<K>,
  model: Model<K>,
  badness: (lower: number, upper: number) => number,
): Candidate[] {
  const compiled = compileInputs(inputs)
  const { names, spreads, varying } = compiled
  const at = briefEvaluator(compiled, model, row)
  const fixed = conditions.map((name) => names.indexOf(name))
  const parts = varying.filter((i) => !fixed.includes(i))
  let places: number[][] = [[]]
  for (const i of fixed) {
    const { lower, upper } = spreads[i] as Spread
    const ends = lower === upper ? [lower] : [lower, upper]
    places = places.flatMap((place) => ends.map((value) => [...place, value]))
  }
  if (places.length > 1) places.push(fixed.map((i) => (spreads[i]!.lower + spreads[i]!.upper) / 2))
  const candidates = places.map((place): Candidate => {
    place.forEach((value, n) => {
      at.set(fixed[n]!, value)
    })
    const base = at.finite()
    let lower = base
    let upper = base
    for (const i of parts) {
      const spread = spreads[i]!
      at.set(i, spread.lower)
      const a = at.finite() - base
      at.set(i, spread.upper)
      const b = at.finite() - base
      at.set(i, spread.nominal)
      lower += Math.min(a, b, 0)
      upper += Math.max(a, b, 0)
    }
    const corner = place.every((value, n) => value === spreads[fixed[n]!]!.lower || value === spreads[fixed[n]!]!.upper)
    return {
      at: Object.fromEntries(place.map((value, n) => [conditions[n], value])),
      corner,
      reach: badness(lower, upper),
    }
  })
  return candidates.sort((a, b) => b.reach - a.reach)
}
