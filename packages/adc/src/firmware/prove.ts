import { InputError } from '@ohmward/quantity'
import {
  highestIntermediate,
  type Integers,
  largestOf,
  lowestIntermediate,
  resultOf,
  validIntegers,
} from './integers.js'
import { realAt, type Target, validTarget } from './target.js'

/** What trying every code showed. Errors are integer minus real, in output units. */
export interface Proof {
  /** How many codes were tried: all. */
  readonly tried: number
  readonly worstError: number
  readonly worstCode: number
  /** Most negative and most positive error, and their mean over all codes: the bias that truncation leaves. */
  readonly errors: readonly [lowest: number, highest: number]
  readonly meanError: number
  /** Smallest and largest result. */
  readonly results: readonly [lowest: number, highest: number]
  /** Codes without a value that fits; they give `beyond`. */
  readonly beyond: number
  /** Highest value of any sub-expression, and what is left of the word above it; negative where it wraps. */
  readonly highest: number
  readonly headroom: number
  /** Whether every sub-expression stays in the word and no unsigned one falls below 0. */
  readonly fits: boolean
}

/**
 * Tries every code, 0 and the largest included: exact, no sampling. Constants from elsewhere can be held to it too.
 *
 * @throws InputError for constants that can't be firmware: a shift beyond the word, numbers that aren't whole; for a target
 *   that has a pole at one of the codes
 */
export function prove(integers: Integers, target: Target): Proof {
  validIntegers(integers)
  validTarget(target)
  let [lowest, highest, sum, worstError, worstCode] = [Infinity, -Infinity, 0, -1, 0]
  let [least, most, beyond] = [Infinity, -Infinity, 0]
  const [from, to] = integers.kind === 'linear' ? [0, integers.codes] : [integers.from, integers.to]
  for (let code = 0; code <= integers.codes; code++) {
    const result = resultOf(integers, code)
    if (result < least) least = result
    if (result > most) most = result
    if (code < from || code > to) {
      beyond++
      continue
    }
    const error = result - realAt(target, code)
    if (!Number.isFinite(error)) throw new InputError({ field: 'target', value: code, allowed: 'finite at every code' })
    sum += error
    if (error < lowest) lowest = error
    if (error > highest) highest = error
    if (Math.abs(error) > worstError) {
      worstError = Math.abs(error)
      worstCode = code
    }
  }
  const peak = highestIntermediate(integers)
  const headroom = largestOf(integers.word) - peak
  return {
    tried: integers.codes + 1,
    worstError,
    worstCode,
    errors: [lowest, highest],
    meanError: sum / (to - from + 1),
    results: [least, most],
    beyond,
    highest: peak,
    headroom,
    fits: headroom >= 0 && lowestIntermediate(integers) >= 0 && inResultType(integers, least, most),
  }
}

/** Results below 0 need a signed word, and half its range. */
function inResultType({ word, base }: Integers, least: number, most: number): boolean {
  if (base === 0) return least >= 0 && most <= largestOf(word)
  const half = 2 ** (word - 1)
  return least >= -half && most + base < half
}
