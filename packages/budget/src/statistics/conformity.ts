import { demand, InputError } from '@ohmward/quantity'
import { knownOptions } from '../model/options.js'
import { normalProbability, normalQuantile } from './normal.js'

/** What is known of a quantity: an estimate and its standard uncertainty, taken as normal. */
export interface Known {
  readonly estimate: number
  readonly u: number
}

/** An interval that a quantity must lie in; a side left out is open. */
export interface Interval {
  readonly lower?: number
  readonly upper?: number
}

/** Both sides of an interval, in order and not both open. */
export function sides(interval: Interval, field: string): [number, number] {
  const { lower = -Infinity, upper = Infinity } = knownOptions(interval, ['lower', 'upper'], field)
  for (const [name, value] of Object.entries({ lower, upper }))
    demand(typeof value === 'number', { field: `${field}.${name}`, value, allowed: 'a number' })
  if (!(lower <= upper && lower < Infinity && upper > -Infinity && upper - lower > 0)) {
    throw new InputError({
      field,
      value: `${String(lower)} to ${String(upper)}`,
      allowed: 'lower limit below upper limit',
    })
  }
  if (lower === -Infinity && upper === Infinity) {
    throw new InputError({ field, value: undefined, allowed: 'at least one limit' })
  }
  return [lower, upper]
}

/** Throws unless the number is finite and, where `least` is given, above it. */
export function finiteAbove(field: string, value: number, least = -Infinity): number {
  if (!(Number.isFinite(value) && value > least)) {
    const allowed = least === -Infinity ? 'a finite number' : `a finite number above ${least}`
    throw new InputError({ field, value, allowed })
  }
  return value
}

/** Probability that a standard normal variable is between two values; the small one of two tails keeps its digits. */
export const normalBetween = (from: number, to: number): number =>
  from > 0 ? normalProbability(-from) - normalProbability(-to) : normalProbability(to) - normalProbability(from)

/**
 * Probability that a quantity is within its limits, given its estimate and standard uncertainty (JCGM 106:2012, 7.2 to
 * 7.4: normal distribution, one or two limits). With `u` 0 it is 1 or 0, the limits included.
 *
 * @throws InputError for an estimate that isn't finite, a negative `u`, limits in the wrong order or none at all
 */
export function conformity(known: Known, limits: Interval): number {
  const { estimate, u } = knownOptions(known, ['estimate', 'u'], 'known')
  finiteAbove('estimate', estimate)
  if (u !== 0) finiteAbove('u', u, 0)
  const [lower, upper] = sides(limits, 'limits')
  if (u === 0) return lower <= estimate && estimate <= upper ? 1 : 0
  return normalBetween((lower - estimate) / u, (upper - estimate) / u)
}

/** How far inside the limits a measured value must be: so many `u`, or enough for a conformance probability. */
export type Guard = { readonly multiple: number } | { readonly probability: number }

/**
 * Width of a guard band (JCGM 106:2012, 8.3). `multiple` of 2 is the expanded uncertainty at k = 2; a negative one
 * accepts beyond the limit. `probability` is the least one with which an accepted item meets a single limit
 * (JCGM 106, 8.3.2, example): 0.95 makes it 1.645 u. Of two limits closer than some 4 u the other one takes away from it.
 *
 * @throws InputError for anything that isn't finite, `u` not above 0, a probability outside 0 to 1
 */
export function guardBand(u: number, guard: Guard): number {
  finiteAbove('u', u, 0)
  const { multiple, probability } = knownOptions(
    guard as { multiple?: number; probability?: number },
    ['multiple', 'probability'],
    'guard',
  )
  if ((multiple === undefined) === (probability === undefined)) {
    throw new InputError({ field: 'guard', value: guard, allowed: 'either a multiple or a probability' })
  }
  return finiteAbove(
    'u',
    u * (multiple !== undefined ? finiteAbove('multiple', multiple) : normalQuantile(probability!)),
  )
}

/**
 * Limits that a measured value must keep so that the quantity keeps its own: each moved inwards by the guard band.
 *
 * @throws InputError as {@link guardBand}, and where nothing is left between the two
 */
export function acceptanceLimits(limits: Interval, u: number, guard: Guard): Interval {
  const [lower, upper] = sides(limits, 'limits')
  const width = guardBand(u, guard)
  const inside = {
    ...(lower > -Infinity && { lower: lower + width }),
    ...(upper < Infinity && { upper: upper - width }),
  }
  sides(inside, 'limits less the guard band')
  return inside
}
