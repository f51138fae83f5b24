import { demand } from '@ohmward/quantity'
import {
  highestIntermediate,
  type LinearIntegers,
  largestOf,
  lowestIntermediate,
  validCodes,
  validWord,
  type Word,
} from './integers.js'
import { type Proof, prove } from './prove.js'
import { type LinearTarget, validTarget } from './target.js'

/** Constants with their proof, or why there are none. */
export type Scaling<I> =
  | { readonly kind: 'possible'; readonly integers: I; readonly proof: Proof }
  | { readonly kind: 'impossible'; readonly reason: string }

/**
 * The multiplier, shift and offset that come nearest to a line over every code in a word of 16 or 32 bits, and never wrap.
 * The result is rounded, not truncated; what the rounded multiplier leaves is shared evenly between both ends.
 *
 * @param options - `codes` is the largest code, or the largest sum of codes where samples are averaged ({@link ofSum})
 * @throws InputError for a word other than 16 or 32, codes outside 1 to 2^20 - 1, a target that isn't finite
 */
export function scaleLinear(target: LinearTarget, options: { codes: number; word: Word }): Scaling<LinearIntegers> {
  demand(typeof options === 'object' && options !== null, {
    field: 'options',
    value: options,
    allowed: 'codes and word',
  })
  const { codes, word } = options
  validWord(word)
  validCodes(codes)
  validTarget(target)
  const [slope, constant] = target.line
  const least = Math.min(constant, constant + slope * codes)
  const lift = Math.max(0, Math.ceil(-least))
  let best: LinearIntegers | undefined
  let bestBound = Infinity
  for (let shift = 0; shift < word; shift++) {
    const one = 2 ** shift
    const multiplier = Math.round(slope * one)
    const drift = (multiplier - slope * one) * codes
    const half = shift === 0 ? 0 : one / 2
    const wanted = (constant + lift) * one + half - drift / 2
    const below = Math.max(0, -Math.min(Math.round(wanted), Math.round(wanted) + multiplier * codes))
    // What would fall below 0 is lifted by whole units where an offset is taken off anyway, and held at 0 otherwise.
    const base = lift > 0 ? lift + Math.ceil(below / one) : 0
    const exact = wanted + (base - lift) * one
    const add = Math.round(exact) + (lift > 0 ? 0 : below)
    const candidate: LinearIntegers = { kind: 'linear', word, codes, multiplier, add, shift, base }
    const most = Math.max(add, multiplier * codes + add) / one
    if (most > (base > 0 ? largestOf(word) / 2 : largestOf(word))) continue
    if (lowestIntermediate(candidate) < 0 || highestIntermediate(candidate) > largestOf(word)) continue
    const bound = half / one + (Math.abs(drift) / 2 + Math.abs(add - exact)) / one
    if (bound < bestBound) [best, bestBound] = [candidate, bound]
  }
  const proof = best && prove(best, target)
  if (best && proof?.fits) return { kind: 'possible', integers: best, proof }
  return { kind: 'impossible', reason: whyNot(target, codes, word) }
}

/** Which number is too large for the word: the codes themselves, or the results, lifted above 0 before the offset. */
function whyNot({ line: [slope, constant] }: LinearTarget, codes: number, word: Word): string {
  const largest = largestOf(word)
  if (codes > largest) return `codes or sums of codes up to ${codes} do not fit a word of ${word} bits`
  const [least = 0, most = 0] = [constant, constant + slope * codes].map(Math.round).sort((a, b) => a - b)
  const results = `results from ${least} to ${most} do not fit a word of ${word} bits`
  if (least >= 0) return results
  return `${results}: lifted above 0 they reach ${most - least}, a signed word holds ${(largest - 1) / 2}`
}
