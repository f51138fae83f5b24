import type { Input } from '@ohmward/quantity'
import type { Extremes } from '../budget/budget.js'
import { besides, both, extremesOf, named, type Reached } from '../extremes/extremes.js'
import type { Side } from '../extremes/search.js'
import { briefEvaluator, type CompiledInputs, compileInputs, fixed } from '../model/evaluate.js'
import type { Group, Inputs, Model, Row } from '../model/model.js'
import { demandFunction } from '../model/options.js'
import { demandCircumstances } from './given.js'
import { type Candidate, cornersOf, screen } from './screen.js'

/** Parts that act together can go further than screening tells: by this share, conditions are kept in play. */
const SPARE = 0.02

/** What a part stands at that goes down, that stays, that goes up. */
const ends = ['lower', 'nominal', 'upper'] as const

/** Evaluations of a model after which extremes are no longer searched for at further conditions: about half a second. */
const ENOUGH = 150_000

/** Inputs of which some are conditions to cover: a rail, a temperature. */
export interface Circumstances<K extends string> {
  readonly inputs: Inputs<K>
  readonly row?: Row<K>
  /** The inputs that are conditions; each is a spread between the ends of its range. */
  readonly conditions: readonly NoInfer<K>[]
  /** Inputs that add linearly, as their data sheet says: for the probability alone, the limits are the same. */
  readonly groups?: readonly Group<NoInfer<K>>[]
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

/** A station as it was found: nothing in it is by name yet but the conditions. */
export interface Found<K extends string> {
  /** All inputs, the conditions fixed. */
  readonly compiled: CompiledInputs<K>
  /** The conditions. */
  readonly at: Readonly<Record<string, number>>
  readonly extremes: Reached
  /** Why these may not be the worst conditions; empty otherwise. */
  readonly doubts: readonly string[]
}

/**
 * The worst of the conditions, and the extremes over the parts' limits there.
 *
 * Every combination of the conditions' ends, and the middle of all, is screened by moving the parts one at a time and
 * all at once; the true extremes are then sought at the worst. At every other that the screening can't rule out, single
 * parts are moved beside the corners that it suggests; the true extremes are sought there too where that is worse, where
 * the output may stand behind a clip, where the first answer isn't sure, or where the parts that were found do worse there. With the conditions fixed, what drifts with
 * temperature is linear in its coefficient and has a slope that can be followed.
 *
 * @param badness - how bad a smallest and a largest output are; the largest badness decides
 * @throws InputError
 */
export function worstStation<K extends string>(
  circumstances: Circumstances<K>,
  model: Model<K>,
  badness: (lower: number, upper: number) => number,
): Station<K> {
  demandCircumstances(circumstances)
  demandFunction('model', model, 'a function of the inputs that gives a number')
  demandFunction('badness', badness, 'a function of a smallest and a largest output')
  const { compiled, at, extremes, doubts } = worstOf(circumstances, model, badness)
  return { inputs: inputsAt(circumstances, at), at, extremes: named(compiled, extremes), doubts }
}

/** All inputs, with the conditions at these values. */
export const inputsAt = <K extends string>(
  { inputs }: Pick<Circumstances<K>, 'inputs'>,
  at: Readonly<Record<string, number>>,
): Record<K, Input> => ({ ...inputs, ...at }) as Record<K, Input>

/**
 * The same, for a caller that goes on with the inputs as they were read.
 *
 * @param sides - where the badness goes by the smallest output alone: the largest is that which was met on the way
 */
export function worstOf<K extends string>(
  { inputs, row, conditions }: Circumstances<K>,
  model: Model<K>,
  badness: (lower: number, upper: number) => number,
  sides: readonly Side[] = both,
): Found<K> {
  const read = compileInputs(inputs)
  const screening = screen(read, briefEvaluator(read, model, row), conditions, badness)
  let { silent } = screening
  let worst: (Found<K> & { readonly badness: number }) | undefined
  // Behind a clip one part alone may do nothing: where the extremes went beyond the screening's reach, others may too.
  let beyond = 0
  // And where they went beyond single parts moved beside the corners.
  let aside = 0
  let evaluations = 0
  const enough = () => (worst ? worst.badness + 1e-9 * Math.abs(worst.badness) : -Infinity)
  const near = (here: CompiledInputs<K>, { corners }: Candidate) => {
    const { lower, upper } = besides(here, briefEvaluator(here, model, row), corners)
    return badness(lower, upper)
  }
  const isRuledOut = (here: CompiledInputs<K>, candidate: Candidate): boolean => {
    const { reach, told, parts } = candidate
    if (reach + Math.max(SPARE * parts, beyond) <= enough()) return true
    if (reach === Infinity || worst?.extremes.verdict !== 'sure') return false
    const beside = near(here, candidate)
    beyond = Math.max(beyond, beside - told)
    return beside + aside <= enough()
  }
  const seek = (here: CompiledInputs<K>, candidate: Candidate): void => {
    const { at, corner, told } = candidate
    const reached = () => {
      const awake = fixed(here, silent)
      const answer = extremesOf(awake, briefEvaluator(awake, model, row), { isSearched: evaluations < ENOUGH, sides })
      evaluations += answer.evaluations
      return answer
    }
    let found = reached()
    if (stirs(here, model, row, Object.keys(silent), found, candidate.corners, sides)) {
      silent = {}
      found = reached()
    }
    const bad = badness(found.lower, found.upper)
    beyond = Math.max(beyond, bad - told)
    if (screening.candidates.length > 1) aside = Math.max(aside, bad - near(here, candidate))
    if (bad <= enough()) return
    const doubts = corner ? [] : [`the worst case lies inside the range of ${Object.keys(at).join(' or ')}`]
    worst = { compiled: here, at, extremes: found, doubts, badness: bad }
  }
  const left = new Set(screening.candidates)
  for (const candidate of screening.candidates) {
    const here = fixed(read, candidate.at)
    if (isRuledOut(here, candidate)) continue
    left.delete(candidate)
    seek(here, candidate)
  }
  // What was ruled out by itself may still be worse with the parts that were found.
  for (const candidate of left) {
    const here = fixed(read, candidate.at)
    if (!(withParts(here, model, row, worst!.extremes, badness) > enough())) continue
    left.delete(candidate)
    seek(here, candidate)
  }
  return worst!
}

/** How bad the parts of a station's extremes are at other conditions. */
function withParts<K extends string>(
  here: CompiledInputs<K>,
  model: Model<K>,
  row: Row<K> | undefined,
  { places }: Reached,
  badness: (lower: number, upper: number) => number,
): number {
  const there = briefEvaluator(here, model, row)
  const [lower, upper] = places.map((place) => {
    for (const i of here.varying) there.set(i, place[i]!)
    return there.value()
  }) as [number, number]
  return badness(Math.min(lower, upper), Math.max(lower, upper))
}

/**
 * Whether silent parts make a difference at extremes that were found without them, as behind a clip they may: one at a
 * time, since two of opposite sense cancel, and several together, since it may take all of them, each its own way. What
 * did nothing at the extremes either stands at its nominal value there: it is looked at where screening saw it go, too.
 */
function stirs<K extends string>(
  compiled: CompiledInputs<K>,
  model: Model<K>,
  row: Row<K> | undefined,
  silent: readonly string[],
  { places, lower, upper }: Reached,
  corners: Candidate['corners'],
  sides: readonly Side[],
): boolean {
  if (silent.length === 0) return false
  const { names, spreads } = compiled
  const at = briefEvaluator(compiled, model, row)
  // What cancels leaves its last digits behind: that is no difference.
  const rounding = 1e-9 * (upper - lower) + 1e-14 * Math.max(Math.abs(lower), Math.abs(upper))
  const asleep = silent.map((name) => names.indexOf(name as K))
  const alone = asleep.flatMap((_, n) => [1, -1].map((way) => asleep.map((__, m) => (m === n ? way : 0))))
  const tried = [...alone, ...cornersOf(asleep.length)]
  const isStirredAt = (placed: (i: number) => number) => {
    for (let i = 0; i < names.length; i++) at.set(i, placed(i))
    const base = at.value()
    const isMoved = tried.some((ways) => {
      asleep.forEach((i, n) => {
        at.set(i, spreads[i]![ends[ways[n]! + 1]!])
      })
      return !(Math.abs(at.value() - base) <= rounding)
    })
    for (const i of asleep) at.set(i, spreads[i]!.nominal)
    return isMoved
  }
  return sides.some((sign) => {
    const side = sign > 0 ? 1 : 0
    const place = places[side]!
    const found = (i: number) => place[i]!
    const gone = (i: number) =>
      found(i) === spreads[i]!.nominal ? spreads[i]![ends[corners[side]![i]! + 1]!] : found(i)
    return isStirredAt(found) || isStirredAt(gone)
  })
}
