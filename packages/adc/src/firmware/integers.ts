import { demand, InputError } from '@ohmward/quantity'
import { twoTo } from '../two-to.js'
import { at, type Line, validLine } from './target.js'

/** Bits of the unsigned word in which everything is computed. */
export type Word = 16 | 32

/** `((multiplier · code + add) >> shift) - base`; everything before `base` is unsigned and never wraps. */
export interface LinearIntegers {
  readonly kind: 'linear'
  readonly word: Word
  /** Largest code, or sum of codes, that goes in. */
  readonly codes: number
  readonly multiplier: number
  readonly add: number
  readonly shift: number
  readonly base: number
}

/**
 * `(numerator + denominator/2) / denominator - base`, one division, for codes `from` to `to`. Other codes have no value
 * that fits (an open load, a pole): they give `beyond`.
 */
export interface RationalIntegers {
  readonly kind: 'rational'
  readonly word: Word
  readonly codes: number
  readonly numerator: Line
  readonly denominator: Line
  readonly base: number
  readonly from: number
  readonly to: number
  readonly beyond: number
}

/** The constants that go into the firmware. */
export type Integers = LinearIntegers | RationalIntegers

/** Largest value of an unsigned word. @throws InputError unless the word has 16 or 32 bits */
export function largestOf(word: Word): number {
  demand(word === 16 || word === 32, { field: 'word', value: word, allowed: '16 or 32' })
  return 2 ** word - 1
}

/**
 * Exactly what the firmware computes for a code, while nothing wraps (which the proof shows).
 *
 * @throws InputError for constants that can't be firmware, a code that isn't whole, from 0 to the largest
 */
export function execute(integers: Integers, code: number): number {
  validIntegers(integers)
  whole(code, 'code', 0, integers.codes)
  return resultOf(integers, code)
}

/** The same for constants that were read already. */
export function resultOf(x: Integers, code: number): number {
  if (x.kind === 'linear') return Math.floor((x.multiplier * code + x.add) / twoTo(x.shift)) - x.base
  if (code < x.from || code > x.to) return x.beyond
  const denominator = at(x.denominator, code)
  return Math.floor((at(x.numerator, code) + Math.floor(denominator / 2)) / denominator) - x.base
}

/**
 * The largest value of any sub-expression over all codes, each read from left to right, the code itself in its word
 * among them. Every one is monotonic in the code, so the ends decide.
 */
export function highestIntermediate(x: Integers): number {
  if (x.kind === 'linear') return Math.max(x.codes, lineHighest([x.multiplier, x.add], 0, x.codes))
  const { from, to } = x
  const sums = [from, to].map((code) => at(x.numerator, code) + Math.floor(at(x.denominator, code) / 2))
  return Math.max(x.codes, lineHighest(x.numerator, from, to), lineHighest(x.denominator, from, to), ...sums)
}

/** The smallest value of any unsigned sub-expression: below 0 it would wrap. A denominator must be 1 or more. */
export function lowestIntermediate(x: Integers): number {
  const lowest = (line: Line, from: number, to: number) => Math.min(at(line, from), at(line, to))
  if (x.kind === 'linear') return lowest([x.multiplier, x.add], 0, x.codes)
  return Math.min(lowest(x.numerator, x.from, x.to), lowest(x.denominator, x.from, x.to) - 1)
}

function lineHighest([perCode, constant]: Line, from: number, to: number): number {
  return Math.max(Math.abs(perCode) * to, Math.abs(constant), perCode * from + constant, perCode * to + constant)
}

/** Throws InputError for a word, a code range or constants that no firmware of this form can have. */
export function validIntegers(x: Integers): void {
  demand(typeof x === 'object' && x !== null, { field: 'integers', value: x, allowed: 'constants of a firmware' })
  demand(x.kind === 'linear' || x.kind === 'rational', {
    field: 'integers.kind',
    value: x.kind,
    allowed: '"linear" or "rational"',
  })
  validWord(x.word)
  validCodes(x.codes)
  whole(x.base, 'base', 0, 2 ** 31)
  if (x.kind === 'linear') {
    whole(x.shift, 'shift', 0, x.word - 1)
    whole(x.multiplier, 'multiplier', -largestOf(32), largestOf(32))
    whole(x.add, 'add', -largestOf(32), largestOf(32))
    return
  }
  whole(x.from, 'from', 0, x.codes)
  whole(x.to, 'to', x.from, x.codes)
  whole(x.beyond, 'beyond', -(2 ** 31), largestOf(32))
  for (const name of ['numerator', 'denominator'] as const) {
    validLine(x[name], name).forEach((value, i) => {
      whole(value, `${name}[${i}]`, -largestOf(32), largestOf(32))
    })
  }
}

/** Throws InputError unless the word is 16 or 32. */
export function validWord(word: number): void {
  if (word !== 16 && word !== 32) throw new InputError({ field: 'word', value: word, unit: 'bit', allowed: '16 or 32' })
}

/** Throws InputError unless the largest code is whole, 1 to 2^20 - 1: each is tried. */
export function validCodes(codes: number): void {
  whole(codes, 'codes', 1, 2 ** 20 - 1)
}

function whole(value: number, field: string, from: number, to: number): void {
  if (!(Number.isInteger(value) && value >= from && value <= to)) {
    throw new InputError({ field, value, allowed: `a whole number from ${from} to ${to}` })
  }
}
