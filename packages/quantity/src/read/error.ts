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
  /** Other fields of the same record that are wrong too, in the order in which they are read. */
  readonly also?: readonly InputProblem[]
}

/**
 * The one error of every Ohmward package: bad input, found at the edge, before anything is computed.
 *
 * Its message has one grammar: `FIELD = VALUE UNIT: allowed is WHAT. HINT`. Where other fields of the same record are wrong
 * too, `Also wrong: FIELD = VALUE UNIT, …` follows, and `also` has what is allowed there.
 */
export class InputError extends Error {
  readonly field: string
  readonly value: unknown
  readonly unit: string
  readonly allowed: string
  readonly hint: string
  readonly also: readonly InputProblem[]

  constructor({ field, value, unit = '', allowed, hint = '', also = [] }: InputProblem) {
    const others = also.length > 0 ? `. Also wrong: ${listed(also)}` : ''
    super(`${given({ field, value, unit })}: allowed is ${allowed}${hint && `. ${hint}`}${others}`)
    this.name = 'InputError'
    this.field = field
    this.value = value
    this.unit = unit
    this.allowed = allowed
    this.hint = hint
    this.also = also
  }
}

/** A field with what was given. */
function given({ field, value, unit = '' }: Pick<InputProblem, 'field' | 'value' | 'unit'>): string {
  return `${field} = ${shown(value)}${unit !== '' && typeof value === 'number' ? ` ${unit}` : ''}`
}

/** The first few of other wrong fields, and how many more there are. */
function listed(also: readonly InputProblem[]): string {
  const more = also.length > 4 ? ` and ${also.length - 4} more` : ''
  return also.slice(0, 4).map(given).join(', ') + more
}

/** A received value as it stands in a message: short, and never a throw of its own. */
function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value)
  if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value)
  if (value === undefined) return 'nothing'
  if (value === null || typeof value === 'boolean') return String(value)
  return Array.isArray(value) ? 'a list' : typeof value === 'object' ? 'an object' : `a ${typeof value}`
}
