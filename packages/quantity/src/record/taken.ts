import { format } from '../unit/format.js'
import type { Field, Fields, RecordOf } from './field.js'
import { fieldsIn } from './valid.js'

/** A value taken by default because nothing was given. */
export interface Taken {
  /** Path to the field: `timing.wait`. */
  readonly field: string
  /** What was taken, as it would be written: `1 ms`. */
  readonly value: string
  readonly meaning: string
  /** The whole in words: `timing.wait = 1 ms (from switching the excitation on to the sample)`. */
  readonly text: string
}

/** Everything that a record takes where nothing was given, each with its value and unit. @throws InputError for what is no record */
export function takenFor<F extends Fields>(record: Pick<RecordOf<F>, 'fields'>, given: unknown): Taken[] {
  return takenIn(fieldsIn(record), given, '')
}

const ownOf = (given: unknown, word: string): unknown =>
  typeof given === 'object' && given !== null && Object.hasOwn(given, word)
    ? (given as Record<string, unknown>)[word]
    : undefined

function takenIn(fields: Fields, given: unknown, prefix: string): Taken[] {
  return Object.entries(fields).flatMap(([word, field]) => takenOf(field, ownOf(given, word), prefix + word))
}

function takenOf(field: Field, given: unknown, path: string): Taken[] {
  if (field.kind === 'part')
    return given === undefined && field.optional ? [] : takenIn(field.fields, given, `${path}.`)
  if (field.kind === 'list') {
    return Array.isArray(given) ? given.flatMap((one, i) => takenOf(field.of, one, `${path}[${i}]`)) : []
  }
  if (field.kind === 'kinds') {
    const kind = typeof given === 'string' ? given : (ownOf(given, 'kind') ?? field.otherwise)
    const own = typeof kind === 'string' && Object.hasOwn(field.kinds, kind) ? field.kinds[kind] : undefined
    const inside = own ? takenIn(own, typeof given === 'string' ? {} : given, `${path}.`) : []
    return given === undefined && field.otherwise !== undefined
      ? [taken(field, path, field.otherwise), ...inside]
      : inside
  }
  if (given !== undefined || !('otherwise' in field) || field.otherwise === undefined) return []
  return [taken(field, path, written(field))]
}

function taken({ meaning }: Field, field: string, value: string): Taken {
  // What the meaning has in brackets at its end goes on in those around it.
  return { field, value, meaning, text: `${field} = ${value} (${meaning.replace(/ \(([^()]*)\)$/, '; $1')})` }
}

/** What a field takes otherwise, as it would be written. */
export function written(field: Field): string {
  if (field.kind === 'part' || field.kind === 'list') return ''
  const { otherwise } = field
  if (otherwise === undefined) return ''
  const unit = 'unit' in field ? field.unit : undefined
  const one = (value: unknown): string =>
    typeof value === 'number' && unit !== undefined ? format(value, unit) : String(value)
  if (typeof otherwise === 'object' && otherwise !== null) {
    if ('from' in otherwise) return `${one(otherwise.from)} to ${one(otherwise.to)}`
    if ('nominal' in otherwise) return `${one(otherwise.lower)} to ${one(otherwise.upper)}`
    return JSON.stringify(otherwise)
  }
  const isSize = 'magnitude' in field && field.magnitude && otherwise !== 0 && !String(otherwise).includes('±')
  return `${isSize ? '±' : ''}${one(otherwise)}`
}
