import { readSpread } from '../spread/read-spread.js'
import type { Field, Fields, RecordOf, SpreadField } from './field.js'
import { fieldsIn } from './valid.js'

/**
 * Which parts were given without a tolerance though they always have one, such as a resistor: they count as exact, which is
 * too good.
 * A spread that says so itself, and 0, are taken at their word.
 *
 * @param given - what was given and is read without an error
 * @returns one sentence that names the fields, or nothing
 * @throws InputError for what is no record
 */
export function bareText<F extends Fields>(record: Pick<RecordOf<F>, 'fields'>, given: unknown): string[] {
  const bare = bareIn(fieldsIn(record), given, '')
  return bare.length === 0 ? [] : [`No tolerance is stated, so taken as exact: ${bare.join(', ')}.`]
}

const bareIn = (fields: Fields, given: unknown, prefix: string): string[] =>
  typeof given !== 'object' || given === null
    ? []
    : Object.entries(fields).flatMap(([word, field]) =>
        Object.hasOwn(given, word) ? bareOf(field, (given as Record<string, unknown>)[word], prefix + word) : [],
      )

function bareOf(field: Field, given: unknown, path: string): string[] {
  switch (field.kind) {
    case 'part':
      return bareIn(field.fields, given, `${path}.`)
    case 'list':
      return Array.isArray(given) ? given.flatMap((one, i) => bareOf(field.of, one, `${path}[${i}]`)) : []
    case 'kinds': {
      const kind = typeof given === 'object' && given !== null && 'kind' in given ? given.kind : undefined
      const own = typeof kind === 'string' && Object.hasOwn(field.kinds, kind) ? field.kinds[kind] : {}
      return bareIn(own, given, `${path}.`)
    }
    case 'either':
      return field.words.some((one: string) => one === given) ? [] : bareOf(field.or, given, path)
    case undefined:
    case 'spread':
      return field.hasTolerance && isBare(field, given) ? [path] : []
    default:
      return []
  }
}

function isBare({ unit }: SpreadField, given: unknown): boolean {
  if (typeof given === 'number') return given !== 0
  if (typeof given !== 'string') return false
  const { lower, upper } = readSpread(given, { field: 'given', unit, min: 0, max: Number.MAX_VALUE })
  return lower === upper && lower !== 0
}
