import { format } from '../unit/format.js'
import type { Unit } from '../unit/unit.js'
import { demand } from './demand.js'
import { InputError } from './error.js'

/** What a field takes: where it is, in what unit, inside which limits. */
export interface FieldSpec {
  /** Path to the field, in the caller's words: `amplifier.offsetVoltage`. */
  readonly field: string
  readonly unit: Unit
  /** Smallest value allowed. */
  readonly min?: number
  /** Largest value allowed. */
  readonly max?: number
  /** Every value above this one is allowed, this one isn't. */
  readonly above?: number
  /** Every value below this one is allowed, this one isn't. */
  readonly below?: number
  /** Only whole numbers. */
  readonly integer?: boolean
}

/** What a spec may say besides field and unit, and be left out. */
const limiting = ['min', 'max', 'above', 'below'] as const

/** Throws unless a spec says where the field is and in what unit, with limits that are numbers. @throws InputError */
export function validSpec(spec: FieldSpec): void {
  demand(typeof spec === 'object' && spec !== null, { field: 'spec', value: spec, allowed: 'field, unit and limits' })
  const { field, unit } = spec
  demand(typeof field === 'string' && field !== '' && field.length <= 1000, {
    field: 'spec.field',
    value: field,
    allowed: 'the name of a field',
  })
  demand(typeof unit === 'string' && unit.length <= 200, { field: 'spec.unit', value: unit, allowed: 'a unit' })
  for (const name of limiting) {
    const value: unknown = spec[name]
    if (value === undefined) continue
    demand(typeof value === 'number' && !Number.isNaN(value), { field: `spec.${name}`, value, allowed: 'a number' })
  }
}

/** The error of a field. Without `allowed` it says which kind of number, and its limits. */
export function refusal(spec: FieldSpec, value: unknown, hint = '', allowed = kind(spec)): InputError {
  return new InputError({ field: spec.field, value, unit: spec.unit === '1' ? '' : spec.unit, allowed, hint })
}

/** Whether a number is finite and inside the field's limits. */
export function fits(value: number, { min, max, above, below, integer }: FieldSpec): boolean {
  return (
    Number.isFinite(value) &&
    !(min !== undefined && value < min) &&
    !(max !== undefined && value > max) &&
    !(above !== undefined && value <= above) &&
    !(below !== undefined && value >= below) &&
    !(integer && !Number.isInteger(value))
  )
}

/** The limits of a field in words: `at least 0 ohm and less than 1 Mohm`. Empty where there is none. */
export function limits(spec: FieldSpec): string {
  const words: [string, number | undefined][] = [
    ['more than', spec.above],
    ['at least', spec.min],
    ['less than', spec.below],
    ['at most', spec.max],
  ]
  return words
    .filter(([, limit]) => limit !== undefined)
    .map(([word, limit]) => `${word} ${format(limit!, spec.unit, { ascii: true, digits: 15 })}`)
    .join(' and ')
}

function kind(spec: FieldSpec): string {
  const number = spec.integer ? 'a whole number' : 'a finite number'
  const inUnit = spec.unit === '1' ? number : `${number} in ${spec.unit}`
  return [inUnit, limits(spec)].filter(Boolean).join(', ')
}
