import type { Extremes } from '../budget/budget.js'
import { briefEvaluator, type CompiledInputs, compileInputs, type Evaluator } from '../model/evaluate.js'
import type { EngineOptions, Inputs, Model } from '../model/model.js'
import { checkCall, shared } from '../model/options.js'
import { ends, lookAround, roundingOf } from './around.js'
import { Box } from './box.js'
import { look, Seen } from './look.js'
import { type Side, search, settle } from './search.js'
import { holdAgainstCorners, wander } from './wander.js'

/** The first names of a list, and how many more there are. */
const list = (names: readonly string[]): string =>
  names.slice(0, 6).join(', ') + (names.length > 6 ? ` and ${names.length - 6} more` : '')

/**
 * The largest and smallest value of a model over the limits of its inputs, at a cost linear in their number.
 *
 * A model that is monotonic in each input has its extremes at two corners, which the directions at the nominal values
 * give. Whether it is, is looked at there, at both corners, at random ones and on walks through the inside; what makes no
 * difference is moved inside its range too. Where a direction changes, or a place inside is better than the corner that
 * the directions lead to, the extremes are searched by coordinate ascent from many places, and the verdict is 'not sure',
 * with the inputs' names: such a search can miss a higher peak.
 *
 * 'sure' means that the model was monotonic in every input wherever it was looked at, some hundred places. Nothing else is
 * known of a function that can only be called: a peak that is narrow beside the ranges can stand between these places, and
 * `assumed` says so.
 *
 * For `normal` and `t` inputs the limits are those stated: the true values may lie beyond them. Correlations and groups
 * change nothing here. Inputs that make no difference at an extreme stand at their nominal values.
 *
 * @throws InputError for bad inputs, and where the model gives no finite result at the nominal values
 */
export function extremes<const K extends string>(
  inputs: Inputs<K>,
  model: Model<NoInfer<K>>,
  options: EngineOptions<NoInfer<K>> = {},
): Extremes {
  checkCall(inputs, model, options, shared)
  const compiled = compileInputs(inputs)
  const found = named(compiled, extremesOf(compiled, briefEvaluator(compiled, model, options.row), { further: wander }))
  if (compiled.varying.length === 0) return found
  const places = `the ${found.evaluations} places where the model was evaluated`
  const assumed =
    found.verdict === 'sure'
      ? `between ${places} it rises or falls with each input as it does there`
      : `no higher or lower peak lies between ${places}`
  return { ...found, assumed }
}

/** Extremes with the inputs at them by position: a search meets many, and few are ever read by name. */
export interface Reached extends Omit<Extremes, 'atLower' | 'atUpper' | 'assumed'> {
  /** Values of all inputs where the result is smallest, and where it is largest. */
  readonly places: readonly [lower: Float64Array, upper: Float64Array]
}

/** The same with the inputs by name. */
export function named({ names }: CompiledInputs<string>, { lower, upper, places, ...rest }: Reached): Extremes {
  const [atLower, atUpper] = places.map((place) => Object.fromEntries(names.map((name, i) => [name, place[i]!])))
  return { lower, upper, atLower: atLower!, atUpper: atUpper!, ...rest }
}

/** How far extremes are searched. */
interface SearchOptions {
  /** Looks about more closely, for a model of which nothing is known. */
  readonly further?: (box: Box, seen: Seen) => void
  /** `false` leaves the search out where a direction changes: the answer says so, and its doubt is as large. */
  readonly isSearched?: boolean
  /** Those that are asked for: of another one the answer is what was met on the way. */
  readonly sides?: readonly Side[]
}

/** The largest and the smallest. */
export const both: readonly Side[] = [1, -1]

/**
 * The same for inputs that are read already.
 *
 * @param options - how far it is searched
 */
export function extremesOf(
  compiled: CompiledInputs<string>,
  evaluator: Evaluator,
  { further, isSearched = true, sides = both }: SearchOptions = {},
): Reached {
  const { names, spreads, varying } = compiled
  const box = new Box(compiled, evaluator)
  const seen = lookAround(box)
  further?.(box, seen)
  holdAgainstCorners(box, seen)
  const isOpen = seen.turns.includes(1) || seen.depends.includes(1)
  if (isOpen && isSearched) {
    search(box, seen, sides)
    holdAgainstCorners(box, seen)
  }
  const turning: string[] = []
  const depending: string[] = []
  let doubt = 0
  for (let k = 0; isOpen && k < varying.length; k++) {
    const isTurning = seen.turns[k] === 1
    if (!(isTurning || seen.depends[k] === 1)) continue
    const those = isTurning ? turning : depending
    those.push(names[varying[k]!]!)
    doubt += seen.effect[k]!
  }
  const reasons: string[] = []
  if (turning.length > 0) reasons.push(`the result both rises and falls with ${list(turning)}`)
  if (depending.length > 0)
    reasons.push(`whether the result rises or falls with ${list(depending)} depends on other inputs`)
  if (isOpen && !isSearched) reasons.push('it was not searched for at all conditions, which would take too long')
  for (const side of sides) settle(box, side)
  const { broken } = box
  if (broken) {
    reasons.push(
      `no finite result at ${list(varying.map((i) => `${names[i]} = ${broken[names[i]!]!.toPrecision(4)}`))}`,
    )
  }
  const valuesAt = (place: readonly number[]): Float64Array => {
    const values = new Float64Array(spreads.length)
    for (let i = 0; i < spreads.length; i++) values[i] = spreads[i]!.nominal
    for (let k = 0; k < varying.length; k++) values[varying[k]!] = box.valueAt(k, place[k]!)
    return values
  }
  const { lower, upper } = box.best
  return {
    lower: lower.value,
    upper: upper.value,
    places: [valuesAt(lower.place), valuesAt(upper.place)],
    verdict: reasons.length > 0 ? 'not sure' : 'sure',
    reasons,
    doubt: broken ? null : doubt,
    evaluations: box.evaluations,
  }
}

/**
 * The smallest and largest values next to two suggested corners: there, and with each input alone moved to its other limit.
 *
 * @param ways - for each corner: by input -1 for its lower limit, 1 for its upper one, 0 for its nominal value
 */
export function besides(
  compiled: CompiledInputs<string>,
  evaluator: Evaluator,
  ways: readonly Int8Array[],
): { readonly lower: number; readonly upper: number } {
  const box = new Box(compiled, evaluator)
  for (const way of ways) {
    const place = box.nominal.map((own, k) => {
      const end = way[compiled.varying[k]!]!
      return end === 0 ? own : end > 0 ? 1 : 0
    })
    look(box, place, ends, roundingOf(box), new Seen(box.size))
  }
  // Where the model breaks, nothing is ruled out.
  if (box.broken) return { lower: -Infinity, upper: Infinity }
  return { lower: box.best.lower.value, upper: box.best.upper.value }
}
