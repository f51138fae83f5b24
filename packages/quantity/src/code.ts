import { InputError } from './error.js'

/** Tolerance letters of IEC 60062 in per cent, symmetrical ones. B, C, D, G, H, J, M, N are from memory. */
const letters: Readonly<Record<string, number>> = {
  B: 0.1,
  C: 0.25,
  D: 0.5,
  F: 1,
  G: 2,
  H: 3,
  J: 5,
  K: 10,
  M: 20,
  N: 30,
}

/** What a code says. */
export interface Coded {
  /** In ohms or farads. */
  readonly value: number
  /** As a ratio: 0.05 for J; absent where the code has no tolerance letter. */
  readonly tolerance?: number
}

/** Multiplier letters of a kind of code, in steps of a thousand from `power`. */
export interface CodeLetters {
  readonly multipliers: string
  readonly power: number
  /** The letter for tenths, written before the digits: `R10`. */
  readonly tenths?: string
}

/** @throws InputError for what a code can't hold */
export function writeCode(value: number, tolerance: number | undefined, kind: CodeLetters): string {
  const { multipliers, power, tenths } = kind
  const [mantissa = '', tens = ''] = value.toExponential(3).split('e')
  if (!(value > 0 && Number.isFinite(value)) || Math.abs(Number(`${mantissa}e${tens}`) - value) > 1e-12 * value)
    throw new InputError({ field: 'value', value, allowed: 'above 0, with at most four significant digits' })
  const step = Math.max(0, Math.floor((Number(tens) - power) / 3))
  const place = Number(tens) - power - 3 * step
  const letter = multipliers[step]
  if (letter === undefined || place < -2)
    throw new InputError({ field: 'value', value, allowed: `what a code of ${multipliers} can hold` })
  const suffix = tolerance === undefined ? '' : letterOf(tolerance)
  const digits = mantissa.replace('.', '').replace(/0+$/, '')
  if (Number(tens) === -1 && tenths !== undefined) return tenths + digits.padEnd(2, '0') + suffix
  if (place < 0) return letter + ('0'.repeat(-place - 1) + digits).padEnd(2, '0') + suffix
  const padded = digits.padEnd(Math.max(place + 1, 2), '0')
  return padded.slice(0, place + 1) + letter + padded.slice(place + 1) + suffix
}

function letterOf(tolerance: number): string {
  const letter = Object.keys(letters).find((name) => Math.abs(letters[name]! - 100 * tolerance) < 1e-9)
  if (letter) return letter
  const allowed = Object.values(letters).map((x) => x / 100)
  throw new InputError({ field: 'tolerance', value: tolerance, allowed: allowed.join(', ') })
}

/** @throws InputError for what is no code */
export function readCode(text: unknown, kind: CodeLetters, example: string): Coded {
  const { multipliers, power } = kind
  const form = new RegExp(`^(\\d{0,4})([${multipliers}])(\\d{0,4})([${Object.keys(letters).join('')}])?$`)
  const [, whole = '', letter = '', fraction = '', tolerance] =
    form.exec(typeof text === 'string' ? text.trim().replace(/[µμ]/, 'u') : '') ?? []
  if (whole + fraction === '')
    throw new InputError({ field: 'code', value: text, allowed: `a code such as ${example}` })
  const value = Number(`${whole || 0}.${fraction || 0}e${power + 3 * multipliers.indexOf(letter)}`)
  return tolerance === undefined ? { value } : { value, tolerance: letters[tolerance]! / 100 }
}
