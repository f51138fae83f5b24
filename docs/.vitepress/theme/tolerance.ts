import { InputError, readSpread } from '@ohmward/quantity'
import type { Field } from './block.ts'
import { specOf } from './read.ts'

/** A text as its value, and the tolerance with all that stands behind it: `47 ohm` and ` ±1 % triangular`. */
export function parted(text: string): readonly [value: string, tolerance: string] {
  const [, value = '', tolerance = ''] = /^(.*?)(\s*(?:±|\+\s?\/\s?-|\+-|\s[+-]\s*[\d.]).*)?$/s.exec(text) ?? []
  return [value, tolerance]
}

/** Whether a field takes a value with a tolerance, and counts one without as exact. */
export const takesTolerance = ({ words, plain, free, magnitude, integer }: Field): boolean =>
  !(words || plain || free || magnitude || integer)

/** Whether a text is a value that can be read, and has no width. */
export function isBare(field: Field, text: string): boolean {
  if (!takesTolerance(field) || text.trim() === '' || field.also?.includes(text.trim())) return false
  if (parted(text)[1] !== '') return false
  try {
    const { lower, upper } = readSpread(text, specOf(field))
    return lower === upper
  } catch (error) {
    if (error instanceof InputError) return false
    throw error
  }
}
