import type { Margin } from '@ohmward/budget'
import { type Place, type Span, spanOf } from '../supply/place.js'
import type { Stage } from '../walk/stage.js'
import type { Walk } from '../walk/walk.js'
import { glanceAt, rowAt } from './glance.js'

/** How far down a row holds. */
export interface Descent {
  /** Number of the lowest charge of the walk down to which it surely holds everywhere; -1 where not even full. */
  readonly held: number
  /** The places of the next charge below at which it doesn't hold; none where it holds to the end. */
  readonly failing: readonly Place[]
}

/** From full to a charge of the walk, at every temperature and age, or at one of them. */
export const downTo = (walk: Walk, index: number, around: Omit<Span, 'charge'> = walk.around): Span => ({
  charge: { from: walk.charges[0]!, to: walk.charges[index]! },
  ...around,
})

/** One temperature and age as ends. */
const alone = ({ celsius, age }: Omit<Place, 'charge'>): Omit<Span, 'charge'> => ({
  celsius: { from: celsius, to: celsius },
  age: { from: age, to: age },
})

export const fails = (margin: Margin | undefined): boolean => margin !== undefined && margin.verdict !== 'holds'

/**
 * How far down a row holds. Single places tell where it gives way; then everything from full to the charge above is held at
 * once, so that nothing between escapes. Where that fails though no single place does, each temperature and age is gone down
 * by itself, and what is left in doubt counts as failing.
 *
 * @param last - number of the lowest charge that is asked for
 */
export function descend(walk: Walk, stage: Stage, id: string, last: number): Descent {
  const failsDownTo = (index: number, around?: Omit<Span, 'charge'>) =>
    index >= 0 && fails(walk.over(downTo(walk, index, around)).margin(stage, id))
  const placesAt = (index: number, states = walk.states): Place[] =>
    states.map((state) => ({ ...state, charge: walk.charges[index]! }))
  const failingAt = (index: number, states = walk.states) =>
    index < 0 ? [] : placesAt(index, states).filter((place) => fails(walk.over(spanOf(place)).margin(stage, id)))
  // One that seems short is asked at single places first: where such a place fails, all of it together does.
  if (!seemsShort(walk, stage, id, last) && !failsDownTo(last)) return { held: last, failing: [] }
  for (const state of extremesOf(walk)) {
    const isFailing = (index: number) => failingAt(index, [state]).length > 0
    if (!isFailing(last)) continue
    const guess = guessOf(walk, stage, id, last, state)
    // What holds over all from full to the charge above holds at each place of it: it need not be asked there by itself.
    const isRight = guess !== undefined && isFailing(guess) && !failsDownTo(guess - 1)
    const index = isRight ? guess : firstOf(last, isFailing, -1, guess)
    if (!isRight && failsDownTo(index - 1)) continue
    return { held: index - 1, failing: failingAt(index, extremesOf(walk)) }
  }
  if (!failsDownTo(last)) return { held: last, failing: [] }
  const failsAlone = (state: Omit<Place, 'charge'>, index: number) => failsDownTo(index, alone(state))
  const left = walk.states.filter((state) => failsAlone(state, last))
  if (left.length === 0) return { held: last, failing: [] }
  const first = firstOf(last, (index) => failsDownTo(index))
  const failing = failingAt(first)
  if (failing.length > 0) return { held: first - 1, failing }
  // From full to the charge above, all hold together: each of them alone does there, and is asked only further down.
  let at = last
  for (const state of left) {
    if (at > first && failsAlone(state, at - 1)) at = firstOf(at - 1, (index) => failsAlone(state, index), first - 1)
  }
  return {
    held: at - 1,
    failing: placesAt(
      at,
      left.filter((state) => failsAlone(state, at)),
    ),
  }
}

/**
 * The first number above `above` and up to `last` at which something is so, where it stays so from there on.
 *
 * @param guess - where to ask first: beside it next, further and further away; the middle where it says nothing
 */
function firstOf(last: number, isSo: (index: number) => boolean, above = -1, guess?: number): number {
  let [before, from] = [above, last]
  let next = guess
  for (let step = 1; from - before > 1; step *= 2) {
    const index = next !== undefined && next > before && next < from ? next : (before + from) >> 1
    if (isSo(index)) from = index
    else before = index
    if (next !== undefined) next = from === index ? index - step : index + step
  }
  return from
}

/** Whether a row seems to give way at the lowest charge, cold and old or warm and new, by its estimates. */
const seemsShort = (walk: Walk, stage: Stage, id: string, last: number): boolean =>
  extremesOf(walk).some((state) => {
    const seen = glanceAt(walk, stage, id, { ...state, charge: walk.charges[last]! })
    return seen !== undefined && seen.slack < 0
  })

/**
 * Where a row seems to give way at a temperature and age, by its estimates: they cost a tenth of what holding it does, and only say
 * where to look first. Undefined for a row that has none of its own.
 */
function guessOf(walk: Walk, stage: Stage, id: string, last: number, state: Omit<Place, 'charge'>): number | undefined {
  const placeAt = (index: number): Place => ({ ...state, charge: walk.charges[index]! })
  const row = rowAt(walk, stage, id, placeAt(last))
  if (row?.kind !== 'own' || row.estimate === undefined) return undefined
  const isShort = (index: number): boolean => {
    const seen = glanceAt(walk, stage, id, placeAt(index))
    return seen === undefined || seen.slack < 0
  }
  return firstOf(last, isShort)
}

/** Number of the lowest charge down to which a block works at all with what the supply leaves it; -1 where it never does. */
export function reachOf(walk: Walk, stage: Stage): number {
  const isRefused = (index: number) =>
    walk
      .over(downTo(walk, index))
      .ready(stage)
      .some(({ refused }) => refused !== undefined)
  const last = walk.charges.length - 1
  return isRefused(last) ? firstOf(last, isRefused) - 1 : last
}

/** The weakest supply and the strongest: cold and old, warm and new. */
export function extremesOf({ around: { celsius, age } }: Walk): Omit<Place, 'charge'>[] {
  const weakest = { celsius: celsius.from, age: age.to }
  const strongest = { celsius: celsius.to, age: age.from }
  return weakest.celsius === strongest.celsius && weakest.age === strongest.age ? [weakest] : [weakest, strongest]
}
