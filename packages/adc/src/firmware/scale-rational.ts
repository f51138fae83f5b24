import { demand, InputError } from '@ohmward/quantity'
import {
  highestIntermediate,
  largestOf,
  lowestIntermediate,
  type RationalIntegers,
  validCodes,
  validWord,
  type Word,
} from './integers.js'
import { prove } from './prove.js'
import type { Scaling } from './scale-linear.js'
import { at, type Line, type RationalTarget, realAt, validTarget } from './target.js'

/** What a quotient needs to know beside its target. */
export interface RationalOptions {
  /** The largest code. */
  readonly codes: number
  readonly word: Word
  /** Largest result in output units; codes that mean more (an open load, code 0 of a rail) give `beyond`. */
  readonly largest: number
  /** Result that says "no reading"; `largest` by default. */
  readonly beyond?: number
  /** Codes below this one are no reading: ten counts keep the half count of a quotient within 5 %. Pitfall F05. */
  readonly smallestCode?: number
}

/**
 * The constants of one integer division for a quotient of lines, which never wrap: of some hundred common scales those that
 * come nearest over every code. In 16 bits a finer search may halve the error; the proof says what these are worth.
 *
 * @throws InputError for a word other than 16 or 32, codes outside 1 to 2^20 - 1, a target or limit that isn't finite
 */
export function scaleRational(target: RationalTarget, options: RationalOptions): Scaling<RationalIntegers> {
  demand(typeof options === 'object' && options !== null, {
    field: 'options',
    value: options,
    allowed: 'codes, word and largest',
  })
  const { codes, word, largest, smallestCode = 0, beyond = largest } = options
  validWord(word)
  validCodes(codes)
  validTarget(target)
  for (const [field, value] of Object.entries({ largest, beyond, smallestCode })) {
    if (!(Number.isInteger(value) && value >= 0 && value <= largestOf(word))) {
      throw new InputError({ field, value, allowed: `a whole number from 0 to ${largestOf(word)}` })
    }
  }
  const range = usable(target, smallestCode, codes, largest)
  if (range === undefined) return { kind: 'impossible', reason: `no code gives a result up to ${largest}` }
  const [from, to] = range
  const sign = at(target.denominator, from) < 0 ? -1 : 1
  const ends = [realAt(target, from), realAt(target, to)]
  const base = Math.max(0, Math.ceil(-Math.min(...ends)))
  const denominator = scaled(target.denominator, sign)
  const lifted = target.numerator.map((n, i) => sign * n + base * denominator[i as 0 | 1]) as unknown as Line
  const shape = (factor: number): RationalIntegers => ({
    kind: 'rational',
    word,
    codes,
    numerator: rounded(scaled(lifted, factor)),
    denominator: rounded(scaled(denominator, factor)),
    base,
    from,
    to,
    beyond,
  })
  let best: RationalIntegers | undefined
  let bestError = Infinity
  for (const factor of factors(lifted, denominator, range, word)) {
    const candidate = shape(factor)
    if (lowestIntermediate(candidate) < 0 || highestIntermediate(candidate) > largestOf(word)) continue
    const error = drift(candidate, target)
    if (error < bestError * (1 - 1e-9)) [best, bestError] = [candidate, error]
  }
  const proof = best && prove(best, target)
  if (best && proof?.fits) return { kind: 'possible', integers: best, proof }
  return { kind: 'impossible', reason: `numerator, denominator or results do not fit a word of ${word} bits` }
}

/** First and last code whose quotient is finite, on the side of the pole where codes begin to fit, and at most `largest`. */
function usable(target: RationalTarget, first: number, last: number, largest: number): [number, number] | undefined {
  let from = -1
  let sign = 0
  for (let code = first; code <= last; code++) {
    const d = at(target.denominator, code)
    const value = realAt(target, code)
    const good = d !== 0 && Math.abs(value) <= largest && (sign === 0 || Math.sign(d) === sign)
    if (good && from < 0) [from, sign] = [code, Math.sign(d)]
    if (!good && from >= 0) return [from, code - 1]
  }
  return from < 0 ? undefined : [from, last]
}

const scaled = ([a, b]: Line, factor: number): Line => [a * factor, b * factor]
const rounded = ([a, b]: Line): Line => [Math.round(a), Math.round(b)]

/** Common factors to try, largest first: those that make the denominator's step (or constant) whole. */
function factors(numerator: Line, denominator: Line, [from, to]: [number, number], word: Word): number[] {
  const whole: RationalIntegers = {
    kind: 'rational',
    word,
    codes: to,
    numerator,
    denominator,
    base: 0,
    from,
    to,
    beyond: 0,
  }
  const most = largestOf(word) / highestIntermediate(whole)
  const unit = Math.abs(denominator[0] || denominator[1])
  const list = new Set<number>()
  for (let n = 0; n <= 96; n++) {
    const factor = most * 2 ** (-n / 8)
    const steps = Math.floor(factor * unit)
    list.add(steps >= 1 ? steps / unit : factor)
  }
  return [...list]
}

/** Largest error of the rounded constants, before the division is rounded: smooth, so some codes tell. */
function drift(x: RationalIntegers, target: RationalTarget): number {
  const span = x.to - x.from
  let worst = 0
  for (let n = 0; n <= 64; n++) {
    const code = x.from + Math.round((span * n) / 64)
    const value = at(x.numerator, code) / at(x.denominator, code) - x.base
    worst = Math.max(worst, Math.abs(value - realAt(target, code)))
  }
  return worst
}
