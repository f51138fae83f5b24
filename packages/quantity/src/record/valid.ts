import { demand } from '../read/demand.js'
import { demandShape, type Shape } from '../read/demand-shape.js'
import type { Check, Field, Fields } from './field.js'

/*
 * What the makers of fields and records are given: looked at once, where the field is made, so that a slip of the pen ends as the error
 * of bad input while the module that states it is loaded.
 */

/** Fields that were found to be right, and tables of them. */
const known = /*#__PURE__*/ new WeakSet<object>()
const tables = /*#__PURE__*/ new WeakSet<object>()

const common: Shape = { meaning: 'a text', optional: '?true or false' }
const limited: Shape = {
  unit: 'a text',
  min: '?a finite number',
  max: '?a finite number',
  above: '?a finite number',
  below: '?a finite number',
  integer: '?true or false',
}

const ends: Shape = { from: 'a finite number or a text', to: 'a finite number or a text' }

/** What each kind of field says of itself, beside its meaning. */
const shapes: Readonly<Record<NonNullable<Field['kind']>, () => Shape>> = {
  spread: () => ({
    ...limited,
    symbol: 'a text',
    kind: '?a text',
    magnitude: '?true or false',
    hasTolerance: '?true or false',
    otherwise: '?anything',
  }),
  number: () => ({ ...limited, kind: 'a text', symbol: '?a text', otherwise: '?a finite number or a text' }),
  range: () => ({ ...limited, kind: 'a text', orOne: '?true or false', otherwise: '?an object' }),
  word: () => ({ kind: 'a text', words: 'a list', otherwise: '?anything' }),
  part: () => ({ kind: 'a text', fields: 'an object', check: '?a function', as: '?a function' }),
  list: () => ({
    kind: 'a text',
    of: 'an object',
    least: 'a finite number',
    most: 'a finite number',
    check: '?a function',
  }),
  kinds: () => ({ kind: 'a text', kinds: 'an object', otherwise: '?a text', check: '?a function' }),
  either: () => ({ kind: 'a text', words: 'a list', or: 'an object', otherwise: '?a text' }),
  own: () => ({ kind: 'a text', read: 'a function', schema: 'an object', otherwise: '?anything', given: '?anything' }),
}

const complete = /*#__PURE__*/ new Map<string, Shape>()

/** The whole shape of a kind, put together once. */
function shapeOf(kind: NonNullable<Field['kind']>, path: string): Shape {
  const isKind = typeof kind === 'string' && Object.hasOwn(shapes, kind)
  demand(isKind, { field: `${path}.kind`, value: kind, allowed: Object.keys(shapes).join(', ') })
  const shape = { ...shapes[kind](), ...common }
  complete.set(kind, shape)
  return shape
}

/** A field that was just made, once it is found to be right. @throws InputError naming what it says wrongly of itself */
export function made<F extends Field>(field: F): F {
  demandField(field, 'field')
  return field
}

/** Throws unless it is a field, or a value with limits as in a table of a part. @throws InputError */
function demandField(field: Field, path: string): void {
  if (known.has(field)) return
  demand(typeof field === 'object' && field !== null, { field: path, value: field, allowed: 'a field' })
  const { kind = 'spread' } = field
  const shape = complete.get(kind) ?? shapeOf(kind, path)
  demandShape(field, path, shape)
  demandInside(field, path)
  known.add(field)
}

/** What stands inside a field: its words, its fields, and what is taken by default. */
function demandInside(field: Field, path: string): void {
  switch (field.kind) {
    case 'word':
      demandWords(field.words, `${path}.words`)
      among(field.otherwise, field.words, path)
      break
    case 'either':
      demandWords(field.words, `${path}.words`)
      demandField(field.or, `${path}.or`)
      among(field.otherwise, field.words, path)
      break
    case 'part':
      demandFields(field.fields, `${path}.fields`)
      break
    case 'list':
      demandField(field.of, `${path}.of`)
      break
    case 'kinds':
      for (const kind in field.kinds) demandFields(field.kinds[kind], `${path}.kinds.${kind}`)
      among(field.otherwise, Object.keys(field.kinds), path)
      break
    case 'range':
      if (field.otherwise) demandShape(field.otherwise, `${path}.otherwise`, ends)
      break
    case undefined:
    case 'spread': {
      const { otherwise } = field
      const isValue = ['undefined', 'string', 'object'].includes(typeof otherwise) || Number.isFinite(otherwise)
      demand(isValue, { field: `${path}.otherwise`, value: otherwise, allowed: 'a value with or without tolerance' })
    }
  }
}

/** Throws unless what is taken by default is one of the words. */
function among(otherwise: unknown, words: readonly unknown[], path: string): void {
  const isOne = otherwise === undefined || words.includes(otherwise)
  demand(isOne, { field: `${path}.otherwise`, value: otherwise, allowed: `one of ${words.join(', ')}` })
}

/** Throws unless it is a list of words. @throws InputError */
export function demandWords(words: readonly unknown[], path: string): void {
  const isWord = (one: unknown) => ['string', 'boolean'].includes(typeof one) || Number.isFinite(one)
  const areWords = Array.isArray(words) && words.length > 0 && words.every(isWord)
  demand(areWords, { field: path, value: words, allowed: 'a list of words' })
}

/** Throws unless it is a table of fields by their words; one that was looked at is known. @throws InputError */
export function demandFields(fields: Fields, path = 'fields'): void {
  if (tables.has(fields)) return
  const isTable = typeof fields === 'object' && fields !== null && !Array.isArray(fields)
  demand(isTable, { field: path, value: fields, allowed: 'fields by their words' })
  for (const word of Object.keys(fields)) demandField(fields[word]!, `${path}.${word}`)
  tables.add(fields)
}

/** Throws unless it is left out or a function. @throws InputError */
export function demandCheck(check: Check | undefined): void {
  const isCheck = check === undefined || typeof check === 'function'
  demand(isCheck, { field: 'check', value: check, allowed: 'a function' })
}

/** The fields of a record. @throws InputError for what is none */
export function fieldsIn(record: { readonly fields: Fields; readonly check?: Check }): Fields {
  const isRecord = typeof record === 'object' && record !== null
  demand(isRecord, { field: 'record', value: record, allowed: 'a record' })
  demandFields(record.fields, 'record.fields')
  demandCheck(record.check)
  return record.fields
}
