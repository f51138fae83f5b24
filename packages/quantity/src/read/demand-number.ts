import { demand } from './demand.js'
import { type FieldSpec, fits, refusal, validSpec } from './field.js'

/** A number that is in the field's unit already, inside its limits: for what a reader left, so that no text is taken. @throws InputError */
export function demandNumber(value: unknown, spec: FieldSpec): number {
  validSpec(spec)
  if (typeof value !== 'number' || !fits(value, spec)) throw refusal(spec, value)
  return value
}

/** Several of them in one object. @throws InputError where it is none, or naming the first that isn't allowed */
export function demandNumbers(
  given: unknown,
  field: string,
  limits: Readonly<Record<string, Omit<FieldSpec, 'field'>>>,
): void {
  demand(typeof field === 'string', { field: 'field', value: field, allowed: 'a text' })
  demand(typeof limits === 'object' && limits !== null, { field: 'limits', value: limits, allowed: 'limits by name' })
  const allowed = `an object with ${Object.keys(limits).join(', ')}`
  demand(typeof given === 'object' && given !== null, { field, value: given, allowed })
  for (const [key, within] of Object.entries(limits)) {
    demandNumber((given as Readonly<Record<string, unknown>>)[key], { ...within, field: `${field}.${key}` })
  }
}
