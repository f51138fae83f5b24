import { format, type PartFields } from '@ohmward/quantity'
import type { Field } from './block.ts'

/** A text for each field: strings stand as they are, bare numbers are SI. */
type Given = Readonly<Record<string, string | number>>

/** A part whose fields the form shows. */
export interface FormPart {
  /** Where it is in the call's arguments: `choice.amplifier`. */
  readonly path: string
  /** The library's own table of its fields. */
  readonly table: PartFields
  /** What stands in them at first; what isn't given is left to the library, and the form says what that takes. */
  readonly given?: Given
  /** The fields to show, by default all. */
  readonly words?: readonly string[]
  /** Which part it is, where the group holds several. */
  readonly of?: string
}

/** Fields of the form from a part's published table, so that label, symbol, unit and limits are the library's own. */
export function partFields({ path, table, given = {}, words = Object.keys(table), of = '' }: FormPart): Field[] {
  return words.map((word) => {
    const { meaning, otherwise, magnitude, symbol, ...limits } = table[word]!
    const sign = magnitude ? '±' : ''
    const usual = typeof otherwise === 'number' ? sign + format(otherwise, limits.unit, { ascii: true }) : otherwise
    return {
      ...limits,
      id: `${path}.${word}`,
      label: ofPart(of, meaning),
      symbol,
      ...(magnitude && { magnitude }),
      demo: String(given[word] ?? ''),
      ...(typeof usual === 'string' && { otherwise: usual }),
    }
  })
}

/** What the symbols of parts stand for, and their units, for budgets and derivations. */
export const statedBy = (parts: readonly Pick<FormPart, 'table' | 'of'>[]) => {
  const fields = parts.flatMap(({ table, of = '' }) => Object.values(table).map((field) => ({ ...field, of })))
  return {
    units: Object.fromEntries(fields.map(({ symbol, unit }) => [symbol, unit])),
    names: Object.fromEntries(fields.map(({ symbol, meaning, of }) => [symbol, ofPart(of, meaning)])),
  }
}

const ofPart = (of: string, meaning: string): string => (of === '' ? meaning : `${of}: ${meaning}`)

/** Examples by class as the choices of a preset: each fills the fields of its part. */
export const presetTexts = (
  path: string,
  examples: Readonly<Record<string, object>>,
): Readonly<Record<string, Readonly<Record<string, string>>>> =>
  Object.fromEntries(Object.entries(examples).map(([name, part]) => [inWords(name), flat(path, part)]))

/** `zeroDrift` as `zero drift`; a name in words stays. */
export const inWords = (name: string): string =>
  name.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`)

function flat(path: string, part: object): Record<string, string> {
  const texts: Record<string, string> = {}
  for (const [word, value] of Object.entries(part)) {
    if (typeof value === 'object' && value !== null) Object.assign(texts, flat(`${path}.${word}`, value))
    else texts[`${path}.${word}`] = String(value)
  }
  return texts
}
