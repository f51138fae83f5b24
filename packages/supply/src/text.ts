import { InputError, own } from '@ohmward/quantity'

/** A field for a name: 1 to 60 characters. */
/*#__NO_SIDE_EFFECTS__*/
export const text = <const M extends { readonly meaning: string; readonly optional?: true }>(more: M) =>
  own<string>()(readText, { ...more, schema: { type: 'string', minLength: 1, maxLength: 60 } })

function readText(given: unknown, field: string): string {
  if (typeof given === 'string' && given.trim() !== '' && given.length <= 60) return given
  throw new InputError({ field, value: given, allowed: 'a name of 1 to 60 characters' })
}
