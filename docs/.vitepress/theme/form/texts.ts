import { format, type Spread } from '@ohmward/quantity'
import type { Field, Texts } from '../block.ts'

/** What stands in a form's fields where a choice is given, by the fields' paths; empty where it gives nothing. */
export function textsFor(fields: readonly Field[], given: object): Record<string, string> {
  return Object.fromEntries(fields.map((field) => [field.id, textOf(field, at(given, field.id))]))
}

/** What stands at a path; a kind may be given as its bare word. */
function at(given: unknown, path: string): unknown {
  let here = given
  for (const step of path.split('.')) {
    if (typeof here === 'string') return step === 'kind' ? here : undefined
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) return undefined
    here = (here as Record<string, unknown>)[step]
  }
  return here
}

interface Point {
  readonly volts?: number
  readonly celsius?: number
  readonly factor: number
}

const isPoint = (one: unknown): one is Point => typeof one === 'object' && one !== null && 'factor' in one

export const isSpread = (value: unknown): value is Spread =>
  typeof value === 'object' && value !== null && 'nominal' in value && 'lower' in value && 'upper' in value

/** A number that is never less, to six digits, without an exponent. */
function upTo(value: number): string {
  const digit = 10 ** Math.max(-9, Math.floor(Math.log10(value)) - 5)
  return String(Number((Math.ceil(value / digit - 1e-9) * digit).toFixed(9)))
}

/** `66 mohm +139/-38 mohm`: what lies within, and hardly more. */
function spreadText({ nominal, lower, upper }: Spread, unit: string): string {
  const text = format(nominal, unit, { ascii: true, digits: 6 })
  if (lower === upper) return text
  const [number = '', shown = ''] = text.split(' ')
  const scale = nominal === 0 ? 1 : nominal / Number(number)
  const middle = scale * Number(number)
  return `${text} +${upTo(Math.max(upper - middle, 1e-12) / scale)}/-${upTo(Math.max(middle - lower, 1e-12) / scale)} ${shown}`
}

/** A value as a person writes it; what has no text of its own goes as JSON. */
export function textOf(field: Pick<Field, 'unit' | 'code' | 'words' | 'also' | 'each'>, value: unknown): string {
  if (value === undefined || value === null) return ''
  if (typeof value === 'number') {
    return field.words || field.code || field.unit === '1' || field.unit === 'bit'
      ? String(value)
      : format(value, field.unit, { ascii: true, digits: 12 })
  }
  if (isSpread(value)) return spreadText(value, field.unit)
  if (Array.isArray(value)) {
    if (value.every(isPoint)) {
      return value
        .map(({ volts, celsius, factor }) => `${volts === undefined ? `${celsius} degC` : `${volts} V`}: ${factor}`)
        .join(', ')
    }
    if (field.code === 'list') return value.join(', ')
    if (field.code === 'lists') return value.map((group: unknown[]) => group.join(', ')).join('; ')
  }
  // What each place has of its own stands in its own field.
  if (field.each && typeof value === 'object') return ''
  return typeof value === 'object' ? JSON.stringify(value) : String(value)
}

const words = (text: string): string[] =>
  text
    .split(',')
    .map((word) => word.trim())
    .filter(Boolean)

/** What a field's text stands for in the block's call. A bare number goes as one, it means the same. */
export function readText({ code }: Pick<Field, 'code'>, typed: string): unknown {
  const text = typed.trim()
  if (code === 'text') return text
  if (code === 'boolean') return text === 'true' ? true : text === 'false' ? false : text
  if (code === 'list') return words(text)
  if (code === 'lists') return text.split(';').map(words)
  if (code === 'own' && /^[[{]/.test(text)) {
    try {
      return JSON.parse(text)
    } catch {
      return text
    }
  }
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text
}

/** A word as it is shown: yes and no, where the library takes true and false. */
export const wordShown = ({ code }: Pick<Field, 'code'>, word: string): string =>
  code === 'boolean' ? ({ true: 'yes', false: 'no' }[word] ?? word) : word

/** What stands in a field whose text is empty: of words without an empty one, the usual or the first. */
export const standing = ({ words, otherwise }: Field, text: string): string =>
  text === '' && words && !words.includes('') ? (otherwise ?? words[0]!) : text

/** Texts for some parts by name: choosing one empties the fields of the part that it doesn't give. */
export function classesOf(
  fields: readonly Field[],
  path: string,
  parts: Readonly<Record<string, object>>,
): Readonly<Record<string, Texts>> {
  const own = fields.filter(({ id }) => id.startsWith(`${path}.`))
  return Object.fromEntries(
    Object.entries(parts).map(([name, part]) => [
      name,
      Object.fromEntries(
        own.map((field) => [field.id, standing(field, textOf(field, at(part, field.id.slice(path.length + 1))))]),
      ),
    ]),
  )
}
