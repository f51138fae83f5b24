import { InputError } from '../read/error.js'
import { evenLetters, letterText, picofaradLetters, unevenLetters } from './tolerance-letters.js'

/** What a code says. */
export interface Coded {
  /** In ohms or farads. */
  readonly value: number
  /** As a ratio: 0.05 for J; absent where the code has no tolerance letter, or one whose limits aren't symmetrical. */
  readonly tolerance?: number
  /** As a ratio, how far below the value its lower limit is: 0.2 for Z; there with `above` alone. */
  readonly below?: number
  /** As a ratio, how far above the value its upper limit is: 0.8 for Z. */
  readonly above?: number
}

/** A tolerance to be written as a letter: a ratio, or one for each side. */
export type CodeTolerance = number | { readonly below: number; readonly above: number }

/** Multiplier letters of a kind of code, in steps of a thousand from `power`. */
export interface CodeLetters {
  readonly multipliers: string
  readonly power: number
  /** The letter for tenths, written before the digits: `R10`. */
  readonly tenths?: string
  /** Capacitors: letters of limits that aren't symmetrical, and picofarads below 10 pF. */
  readonly capacitor?: true
}

/** Below this capacitance some letters are picofarads. */
const tenPicofarads = 1e-11

/** Every letter of a kind with what it says: `J ±5 %`. */
const known = ({ capacitor }: CodeLetters): string =>
  [...Object.keys(evenLetters), ...(capacitor ? Object.keys(unevenLetters) : [])]
    .map((letter) => `${letter} ${letterText(letter)}`)
    .join(', ')

/** @throws InputError for what a code can't hold */
export function writeCode(value: number, tolerance: CodeTolerance | undefined, kind: CodeLetters): string {
  const { multipliers, power, tenths } = kind
  if (typeof value !== 'number')
    throw new InputError({ field: 'value', value, allowed: 'above 0, with at most four significant digits' })
  const [mantissa = '', tens = ''] = value.toExponential(3).split('e')
  if (!(value > 0 && Number.isFinite(value)) || Math.abs(Number(`${mantissa}e${tens}`) - value) > 1e-12 * value)
    throw new InputError({ field: 'value', value, allowed: 'above 0, with at most four significant digits' })
  const step = Math.max(0, Math.floor((Number(tens) - power) / 3))
  const place = Number(tens) - power - 3 * step
  const letter = multipliers[step]
  if (letter === undefined || place < -2)
    throw new InputError({ field: 'value', value, allowed: `what a code of ${multipliers} can hold` })
  const suffix = tolerance === undefined ? '' : letterOf(tolerance, value, kind)
  const digits = mantissa.replace('.', '').replace(/0+$/, '')
  if (Number(tens) === -1 && tenths !== undefined) return tenths + digits.padEnd(2, '0') + suffix
  const behind = '0'.repeat(Math.max(0, -place - 1)) + digits
  if (place < 0 && behind.length > 4)
    throw new InputError({ field: 'value', value, allowed: 'at most four digits after the letter' })
  if (place < 0) return letter + behind.padEnd(2, '0') + suffix
  const padded = digits.padEnd(Math.max(place + 1, 2), '0')
  return padded.slice(0, place + 1) + letter + padded.slice(place + 1) + suffix
}

function letterOf(tolerance: CodeTolerance, value: number, kind: CodeLetters): string {
  const isSmall = kind.capacitor && value < tenPicofarads
  const near = (x: number, y: number) => Math.abs(x - y) < 1e-9
  let letter: string | undefined
  if (typeof tolerance === 'number') {
    const picofarads = isSmall && 1e12 * value * tolerance
    if (picofarads) {
      letter = Object.keys(picofaradLetters).find((name) => Math.abs(picofaradLetters[name]! - picofarads) < 1e-6)
    }
    letter ??= Object.keys(evenLetters).find(
      (name) => near(evenLetters[name]!, 100 * tolerance) && !(isSmall && Object.hasOwn(picofaradLetters, name)),
    )
  } else if (kind.capacitor && typeof tolerance === 'object' && tolerance !== null) {
    const { below, above } = tolerance
    letter = Object.keys(unevenLetters).find((name) => {
      const [down, up] = unevenLetters[name]!
      return near(down, 100 * below) && near(up, 100 * above)
    })
  }
  if (letter !== undefined) return letter
  const even = Object.values(evenLetters).map((x) => Number((x / 100).toPrecision(3)))
  const uneven = Object.values(unevenLetters).map(
    ([below, above]) => `{ below: ${below / 100}, above: ${above / 100} }`,
  )
  const allowed = [...even, ...(kind.capacitor ? uneven : [])].join(', ')
  const hint = isSmall && 'Below 10 pF the letters B, C, D, F, G are 0.1, 0.25, 0.5, 1, 2 pF'
  throw new InputError({ field: 'tolerance', value: tolerance, allowed, ...(hint && { hint }) })
}

/** @throws InputError for what is no code */
export function readCode(text: unknown, kind: CodeLetters, example: string): Coded {
  const { multipliers, power, capacitor } = kind
  const plain = typeof text === 'string' ? text.trim().replace(/[µμ]/, 'u') : ''
  const form = new RegExp(`^(\\d{0,4})([${multipliers}])(\\d{0,4})([A-Z])?$`)
  const [, whole = '', letter = '', fraction = '', last] = form.exec(plain) ?? []
  const isLetter =
    last === undefined || Object.hasOwn(evenLetters, last) || (capacitor && Object.hasOwn(unevenLetters, last))
  if (whole + fraction === '' || !isLetter) {
    const hint = whole + fraction !== '' && `"${last}" is not a tolerance letter; known: ${known(kind)}`
    throw new InputError({ field: 'code', value: text, allowed: `a code such as ${example}`, ...(hint && { hint }) })
  }
  const value = Number(`${whole || 0}.${fraction || 0}e${power + 3 * multipliers.indexOf(letter)}`)
  if (last === undefined) return { value }
  if (Object.hasOwn(unevenLetters, last)) {
    const [below, above] = unevenLetters[last]!
    return { value, below: below / 100, above: above / 100 }
  }
  const picofarads = capacitor && value < tenPicofarads ? picofaradLetters[last] : undefined
  if (picofarads === undefined) return { value, tolerance: evenLetters[last]! / 100 }
  if (value === 0) throw new InputError({ field: 'code', value: text, allowed: 'above 0' })
  return { value, tolerance: picofarads / 1e12 / value }
}
