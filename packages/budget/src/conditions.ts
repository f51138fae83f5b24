import type { Input, Spread } from '@ohmward/quantity'
import type { Extremes } from './budget.js'
import { briefEvaluator, compileInputs } from './evaluate.js'
import { extremes } from './extremes.js'
import type { Inputs, Model, Row } from './model.js'

/** Parts that act together can go further than screening tells: by this share, conditions are kept in play. */
const SPARE = 0.02

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

interface Screening {
  /** The worst first. */
  readonly candidates: readonly Candidate[]
  /** Parts that made no difference anywhere, alone or together: they stand at their nominal values until they do. */
  readonly silent: Readonly<Record<string, number>>
}

interface Candidate {
  readonly at: Readonly<Record<string, number>>
  readonly corner: boolean
  /** Reach of the output as far as one input at a time tells. */
  readonly reach: number
  /** What the parts add to the badness there. */
  readonly parts: number
}

/**
 * The worst of the conditions, and the extremes over the parts' limits there.
 *
 * Every combination of the conditions' ends, and the middle of all, is screened by moving the parts one at a
 * time and all at once; the true extremes are
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
  const { candidates, ...screening } = screen({ inputs, ...(row && { row }), conditions }, model, badness)
  let { silent } = screening
  let worst: { station: Station<K>; badness: number } | undefined
  // Behind a clip one part alone may do nothing: where the extremes went beyond the screening's reach, others may too.
  let beyond = 0
  for (const { at, corner, reach, parts } of candidates) {
    if (worst && reach + Math.max(SPARE * parts, beyond) <= worst.badness + 1e-9 * Math.abs(worst.badness)) continue
    const here = { ...inputs, ...at } as Record<K, Input>
    const reached = (still: Readonly<Record<string, number>>) =>
      extremes({ ...here, ...still } as Record<K, Input>, model as Model<NoInfer<K>>, row ? { row } : {})
    let found = reached(silent)
    if (stirs(here, model, row, Object.keys(silent), found)) {
      silent = {}
      found = reached(silent)
    }
    const bad = badness(found.lower, found.upper)
    beyond = Math.max(beyond, bad - reach)
    if (worst && bad <= worst.badness + 1e-9 * Math.abs(worst.badness)) continue
    const doubts = corner ? [] : [`the worst case lies inside the range of ${Object.keys(at).join(' or ')}`]
    worst = { station: { inputs: here, at, extremes: found, doubts }, badness: bad }
  }
  return worst!.station
}

/** Whether silent parts make a difference, together, at extremes that were found without them: behind a clip they may. */
function stirs<K extends string>(
  inputs: Inputs<K>,
  model: Model<K>,
  row: Row<K> | undefined,
  silent: readonly string[],
  { atLower, atUpper }: Extremes,
): boolean {
  if (silent.length === 0) return false
  const compiled = compileInputs(inputs)
  const { names, spreads } = compiled
  const at = briefEvaluator(compiled, model, row)
  const asleep = silent.map((name) => names.indexOf(name as K))
  return [atLower, atUpper].some((place) => {
    names.forEach((name, i) => {
      at.set(i, place[name]!)
    })
    const base = at.value()
    return (['lower', 'upper'] as const).some((end) => {
      for (const i of asleep) at.set(i, spreads[i]![end])
      return at.value() !== base
    })
  })
}

/**
 * All combinations of the conditions' ends and the middle of all. A part that made no difference at the first is moved
 * together with the others of its kind at the next, and by itself only where that makes one.
 */
function screen<K extends string>(
  { inputs, row, conditions }: Circumstances<K>,
  model: Model<K>,
  badness: (lower: number, upper: number) => number,
): Screening {
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
  let silent: number[] = []
  /** How far the output goes down and up when the silent parts move to their lower limits together, or to their upper ones. */
  const together = (base: number): readonly [down: number, up: number] => {
    const moves = (['lower', 'upper'] as const).map((end) => {
      for (const i of silent) at.set(i, spreads[i]![end])
      const value = at.finite()
      for (const i of silent) at.set(i, spreads[i]!.nominal)
      return value - base
    })
    return [Math.min(...moves, 0), Math.max(...moves, 0)]
  }
  const candidates = places.map((place, first): Candidate => {
    place.forEach((value, n) => {
      at.set(fixed[n]!, value)
    })
    const base = at.finite()
    let lower = base
    let upper = base
    const wake = () => {
      const [down, up] = silent.length > 0 ? together(base) : [0, 0]
      lower += down
      upper += up
      if (down !== 0 || up !== 0) silent = []
    }
    if (first > 0) wake()
    const asleep = silent
    const low: [number, number][] = []
    const high: [number, number][] = []
    if (first === 0) silent = [...parts]
    for (const i of parts) {
      if (asleep.includes(i)) continue
      const spread = spreads[i]!
      at.set(i, spread.lower)
      const a = at.finite() - base
      at.set(i, spread.upper)
      const b = at.finite() - base
      at.set(i, spread.nominal)
      if (first === 0 && (a !== 0 || b !== 0)) silent = silent.filter((k) => k !== i)
      lower += Math.min(a, b, 0)
      upper += Math.max(a, b, 0)
      if (Math.min(a, b) < 0) low.push([i, a < b ? spread.lower : spread.upper])
      if (Math.max(a, b) > 0) high.push([i, a > b ? spread.lower : spread.upper])
    }
    // All of them at once: behind a clip that is more than their sum.
    const corners = [low, high].map((ends) => {
      for (const [i, value] of ends) at.set(i, value)
      const value = at.value()
      for (const [i] of ends) at.set(i, spreads[i]!.nominal)
      return value
    })
    if (corners[0]! < lower) lower = corners[0]!
    if (corners[1]! > upper) upper = corners[1]!
    if (first === 0) wake()
    const corner = place.every((value, n) => value === spreads[fixed[n]!]!.lower || value === spreads[fixed[n]!]!.upper)
    return {
      at: Object.fromEntries(place.map((value, n) => [conditions[n], value])),
      corner,
      reach: badness(lower, upper),
      parts: badness(lower, upper) - badness(base, base),
    }
  })
  return {
    candidates: candidates.sort((a, b) => b.reach - a.reach),
    silent: Object.fromEntries(silent.map((i) => [names[i], spreads[i]!.nominal])),
  }
}
