import { InputError, own } from '@ohmward/quantity'

function readText(given: unknown, field: string): string {
  if (typeof given === 'string' && given.trim() !== '' && given.length <= 200) return given
  throw new InputError({ field, value: given, allowed: 'a text of 1 to 200 characters' })
}

/** A text that may be left out. */
/*#__NO_SIDE_EFFECTS__*/
export const label = (meaning: string) =>
  own<string>()(readText, { schema: { type: 'string', minLength: 1, maxLength: 200 }, meaning, optional: true })
