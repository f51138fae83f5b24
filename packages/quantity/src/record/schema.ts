import { demandShape } from '../read/demand-shape.js'
import { limits } from '../read/field.js'
import type { Field, Fields, RecordOf } from './field.js'
import { mayBeAbsent } from './types.js'
import { fieldsIn } from './valid.js'

/** A schema of JSON (draft 2020-12). */
export type Schema = { readonly [key: string]: unknown }

const distributions = ['exact', 'rectangular', 'triangular', 'trapezoidal', 'arcsine', 'normal', 't']

const spreadSchema: Schema = {
  type: 'object',
  properties: {
    nominal: { type: 'number' },
    lower: { type: 'number' },
    upper: { type: 'number' },
    distribution: {
      type: 'object',
      properties: {
        kind: { enum: distributions },
        top: { type: 'number' },
        coverage: { type: 'number' },
        degreesOfFreedom: { type: 'number' },
      },
      required: ['kind'],
      additionalProperties: false,
    },
    degreesOfFreedom: { type: 'number' },
  },
  required: ['nominal', 'lower', 'upper', 'distribution'],
  additionalProperties: false,
}

/**
 * The schema of what may be given for a record, so that an editor completes and checks a file of it.
 *
 * @throws InputError for what is no record, no title
 */
export function schemaOf<F extends Fields>(
  record: Pick<RecordOf<F>, 'fields'>,
  about: { readonly title: string; readonly id?: string },
): Schema {
  const fields = fieldsIn(record)
  demandShape(about, 'about', { title: 'a text', id: '?a text' })
  const { title, id } = about
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    ...(id !== undefined && { $id: id }),
    title,
    ...objectSchema(fields),
  }
}

function objectSchema(fields: Fields, kind?: string): Schema {
  const required = Object.keys(fields).filter((word) => !mayBeAbsent(fields[word]!))
  const own = Object.entries(fields).map(([word, field]) => [word, fieldSchema(field)])
  return {
    type: 'object',
    properties: { ...(kind !== undefined && { kind: { const: kind } }), ...Object.fromEntries(own) },
    required: kind === undefined ? required : ['kind', ...required],
    additionalProperties: false,
  }
}

/** What a field says of itself: meaning, unit and limits in words, and what is taken otherwise. */
function said(field: Field): Schema {
  const spec = 'unit' in field ? { ...field, field: '' } : undefined
  const unit = spec && spec.unit !== '1' ? `in ${spec.unit}` : ''
  const words = [field.meaning, unit, spec ? limits(spec) : ''].filter(Boolean).join('; ')
  const otherwise = 'otherwise' in field && field.otherwise !== undefined ? { default: field.otherwise } : {}
  return { description: words, ...otherwise }
}

function fieldSchema(field: Field): Schema {
  const about = said(field)
  switch (field.kind) {
    case 'number':
      return { ...about, anyOf: [numberSchema(field), { type: 'string' }] }
    case 'range': {
      const end = { anyOf: [numberSchema(field), { type: 'string' }] }
      const both = {
        type: 'object',
        properties: { from: end, to: end },
        required: ['from', 'to'],
        additionalProperties: false,
      }
      return field.orOne ? { ...about, anyOf: [...end.anyOf, both] } : { ...about, ...both }
    }
    case 'word':
      return { ...about, enum: field.words }
    case 'part':
      return { ...about, ...objectSchema(field.fields) }
    case 'list':
      return { ...about, type: 'array', items: fieldSchema(field.of), minItems: field.least, maxItems: field.most }
    case 'kinds':
      return { ...about, oneOf: Object.entries(field.kinds as Record<string, Fields>).flatMap(kindSchemas) }
    case 'either':
      return { ...about, anyOf: [{ enum: field.words }, fieldSchema(field.or)] }
    case 'own':
      return { ...about, ...field.schema }
    default:
      return { ...about, anyOf: [numberSchema(field), { type: 'string' }, spreadSchema] }
  }
}

function kindSchemas([kind, fields]: [string, Fields]): Schema[] {
  const isBare = Object.values(fields).every(mayBeAbsent)
  return [...(isBare ? [{ const: kind }] : []), objectSchema(fields, kind)]
}

const numberSchema = ({
  min,
  max,
  above,
  below,
  integer,
}: Partial<Record<'min' | 'max' | 'above' | 'below', number>> & {
  readonly integer?: boolean
}): Schema => ({
  type: integer ? 'integer' : 'number',
  ...(min !== undefined && { minimum: min }),
  ...(max !== undefined && { maximum: max }),
  ...(above !== undefined && { exclusiveMinimum: above }),
  ...(below !== undefined && { exclusiveMaximum: below }),
})
