import { InputError } from '@ohmward/quantity'

/** One of a few words. @throws InputError for any other */
export function oneOf<const W extends string>(given: unknown, words: readonly W[], field: string): W {
  if (words.includes(given as W)) return given as W
  throw new InputError({ field, value: given, allowed: words.map((word) => JSON.stringify(word)).join(' or ') })
}
