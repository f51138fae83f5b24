/** What an {@link InputError} is made of. */
export interface InputProblem {
  /** Path to the field, in the caller's words: `amplifier.offsetVoltage`. */
  readonly field: string
  /** What was given. */
  readonly value: unknown
  /** SI unit in which a number was given or expected, `''` where there is none. */
  readonly unit?: string
  /** What is allowed, as it follows the words "allowed is": `more than 0 ohm`. */
  readonly allowed: string
  /** A way out, where one is plain: `"47 m" is 47 milliohm; write "47 M" for megohm`. */
  readonly hint?: string
}

/**
 * The one error of every Ohmward package: bad input, found at the edge, before anything is computed.
 *
 * Its message has one grammar: `FIELD = VALUE UNIT: allowed is WHAT. HINT`.
 */
export class InputError extends Error {
  readonly field: string
  readonly value: unknown
  readonly unit: string
  readonly allowed: string
  readonly hint: string

  constructor({ field, value, unit = '', allowed, hint = '' }: InputProblem) {
    const suffix = unit !== '' && typeof value === 'number' ? ` ${unit}` : ''
    super(`${field} = ${shown(value)}${suffix}: allowed is ${allowed}${hint && `. ${hint}`}`)
    this.name = 'InputError'
    this.field = field
    this.value = value
    this.unit = unit
    this.allowed = allowed
    this.hint = hint
  }
}

/** A received value as it stands in a message: short, and never a throw of its own. */
function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value)
  if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value)
  if (value === undefined) return 'nothing'
  if (value === null || typeof value === 'boolean') return String(value)
  return Array.isArray(value) ? 'a list' : typeof value === 'object' ? 'an object' : `a ${typeof value}`
}
