import { demandText } from '../read/demand-shape.js'
import { InputError } from '../read/error.js'
import { Faults } from '../read/faults.js'
import { refusal } from '../read/field.js'
import { missingFields } from '../read/missing-fields.js'
import { readNumber } from '../read/read-number.js'
import { sized } from '../read/read-part.js'
import { readRange } from '../read/read-range.js'
import { readSpread } from '../spread/read-spread.js'
import type { Spread } from '../spread/spread.js'
import type {
  Check,
  EitherField,
  Field,
  Fields,
  KindsField,
  ListField,
  NumberField,
  RecordOf,
  SpreadField,
} from './field.js'
import { isSettled } from './settled.js'
import { mayBeAbsent, type Read } from './types.js'
import { demandWords, fieldsIn } from './valid.js'

/**
 * Reads what was given for a record: every field by its word, in SI units.
 *
 * @param given - what the user wrote
 * @param path - where it stands, in the caller's words: `choice`
 * @param prefix - what stands before the names of its fields: nothing, or `converter.`
 * @throws InputError that names all missing and unknown fields at once, with the nearest name of one that exists, and every
 *   field whose value isn't allowed: the first, the others in `also`; for what is no record
 */
export function readRecord<F extends Fields>(
  record: RecordOf<F>,
  given: unknown,
  path: string,
  prefix = '',
): Read<RecordOf<F>> {
  const fields = fieldsIn(record)
  demandText('path', path)
  demandText('prefix', prefix)
  return readFields(fields, given, path, prefix, record.check) as Read<RecordOf<F>>
}

function readFields(fields: Fields, given: unknown, path: string, prefix: string, check?: Check): object {
  const words = Object.keys(fields)
  const optional = words.filter((word) => mayBeAbsent(fields[word]!))
  const required = words.filter((word) => !optional.includes(word))
  const faults = new Faults()
  faults.attempt(() => missingFields(given, required, path, optional, (name) => inside(fields, name)))
  if (typeof given !== 'object' || given === null || Array.isArray(given)) faults.refuse()
  const own = given as Record<string, unknown>
  const read: Record<string, unknown> = {}
  for (const word of words) {
    const value = Object.hasOwn(own, word) ? own[word] : undefined
    if (value === undefined && required.includes(word)) continue
    read[word] = faults.attempt(() => readField(fields[word]!, value, prefix + word))
  }
  faults.refuse()
  check?.(read, path, given)
  return read
}

/** The path to the field of a part inside that is called so: what stands one level too high. */
function inside(fields: Fields, name: string): string | undefined {
  for (const [word, field] of Object.entries(fields)) {
    if (field.kind !== 'part') continue
    if (Object.hasOwn(field.fields, name)) return `${word}.${name}`
    const deeper = inside(field.fields, name)
    if (deeper !== undefined) return `${word}.${deeper}`
  }
  return undefined
}

/** What was read of what doesn't change any more, by field. */
const kept = /*#__PURE__*/ new WeakMap<Field, WeakMap<object, unknown>>()

/** Reads one field; `path` is its whole name. */
function readField(field: Field, given: unknown, path: string): unknown {
  const value = given === undefined && 'otherwise' in field ? field.otherwise : given
  if (value === undefined && field.optional) return undefined
  if (value === 'none' && field.kind === 'part' && field.optional)
    throw new InputError({ field: path, value, allowed: 'an object, or left out' })
  if (!isSettled(value)) return readAny(field, value, path)
  const known = kept.get(field) ?? new WeakMap()
  if (!known.has(value)) kept.set(field, known.set(value, readAny(field, value, path)))
  return known.get(value)
}

function readAny(field: Field, value: unknown, path: string): unknown {
  switch (field.kind) {
    case 'number':
      return readExactly(field, value, path)
    case 'range': {
      const { kind: _, meaning: __, otherwise: ___, optional: ____, orOne, ...limits } = field
      const spec = { ...limits, field: path }
      if (!orOne || (typeof value !== 'number' && typeof value !== 'string')) return readRange(value, spec)
      const one = readNumber(value, spec)
      return { from: one, to: one }
    }
    case 'word':
      return oneOf(value, field.words, path)
    case 'part': {
      const read = readFields(field.fields, value === undefined ? {} : value, path, `${path}.`, field.check)
      return field.as ? field.as(read, path) : read
    }
    case 'list':
      return readList(field, value, path)
    case 'kinds':
      return readKind(field, value, path)
    case 'either':
      return readEither(field, value, path)
    case 'own':
      return field.read(value, path)
    default:
      return readValue(field, value, path)
  }
}

/** What was read lately, by field and text: whoever sizes reads the same texts again and again, and every field's default. */
const lately = /*#__PURE__*/ new WeakMap<SpreadField, Map<string, Spread>>()

function readValue(field: SpreadField, value: unknown, path: string) {
  if (typeof value !== 'string') return readFresh(field, value, path)
  const known = lately.get(field) ?? new Map<string, Spread>()
  if (!lately.has(field)) lately.set(field, known)
  const found = known.get(value)
  if (found) return found
  const read = readFresh(field, value, path)
  if (known.size >= 50) known.clear()
  known.set(value, Object.freeze(read))
  return read
}

function readFresh(field: SpreadField, value: unknown, path: string) {
  const { kind: _, symbol: __, meaning: ___, optional: ____, magnitude, otherwise: _____, ...limits } = field
  const spec = { ...limits, field: path }
  const read = readSpread(value, spec)
  return magnitude ? sized(read, spec) : read
}

function readExactly(field: NumberField, value: unknown, path: string): number {
  const { kind: _, symbol: __, meaning: ___, optional: ____, otherwise: _____, ...limits } = field
  const spec = { ...limits, field: path }
  if (typeof value === 'number') return readNumber(value, spec)
  const { nominal, lower, upper } = readSpread(value, spec)
  if (lower === upper) return nominal
  throw refusal(spec, value, 'It takes one number, without a tolerance')
}

function readList({ of, least, most, check }: ListField, value: unknown, path: string): unknown[] {
  if (!Array.isArray(value) || value.length < least || value.length > most) {
    const count = Array.isArray(value) ? `${value.length} given` : ''
    throw new InputError({ field: path, value, allowed: `a list of ${least} to ${most}`, hint: count })
  }
  // A list with a hole has nothing there.
  const faults = new Faults()
  const read = Array.from(value, (one, i) => faults.attempt(() => readField(of, one, `${path}[${i}]`)))
  faults.refuse()
  check?.(read, path, value)
  return read
}

function readKind({ kinds, check }: KindsField, value: unknown, path: string): object {
  const names = Object.keys(kinds)
  const isBare = typeof value === 'string'
  const isObject = typeof value === 'object' && value !== null && !Array.isArray(value)
  const kind = isBare ? value : isObject && Object.hasOwn(value, 'kind') ? (value as { kind: unknown }).kind : undefined
  const field = isBare ? path : `${path}.kind`
  if (typeof kind !== 'string' || !Object.hasOwn(kinds, kind)) {
    const given = isObject ? kind : value
    throw new InputError({ field, value: given, allowed: inWords(names) })
  }
  const required = Object.keys(kinds[kind]!).filter((word) => !mayBeAbsent(kinds[kind]![word]!))
  if (isBare && required.length > 0) {
    const hint = `Missing: ${required.join(', ')}`
    throw new InputError({
      field: path,
      value,
      allowed: `{ kind: ${JSON.stringify(kind)}, ${required.join(', ')} }`,
      hint,
    })
  }
  const { kind: _, ...rest } = isBare ? { kind } : (value as Record<string, unknown>)
  const read = { kind, ...readFields(kinds[kind]!, rest, path, `${path}.`) }
  check?.(read, path, value)
  return read
}

/** A word, or a value in its place; what is neither is told what both would be. */
function readEither({ words, or }: EitherField, value: unknown, path: string): unknown {
  if (typeof value === 'string' && words.includes(value)) return value
  try {
    return readField(or, value, path)
  } catch (error) {
    if (!(error instanceof InputError) || error.field !== path) throw error
    const { field, unit, hint, also } = error
    const allowed = `${inWords(words)} or ${error.allowed}`
    throw new InputError({ field, value: error.value, unit, allowed, hint, also })
  }
}

/** One of a few words. @throws InputError naming the field and the words */
export function oneOf<const W extends string | number | boolean>(
  given: unknown,
  words: readonly W[],
  field: string,
): W {
  demandWords(words, 'words')
  demandText('field', field)
  const found = words.find((word) => word === given)
  if (found !== undefined) return found
  throw new InputError({ field, value: given, allowed: inWords(words) })
}

const inWords = (words: readonly unknown[]): string => words.map((word) => JSON.stringify(word)).join(' or ')
