import { limits } from '../read/field.js'
import type { Field, Fields, RecordOf } from './field.js'
import { written } from './taken.js'
import { mayBeAbsent } from './types.js'
import { fieldsIn } from './valid.js'

/** A line of a record's table: for a README, a reference, a form. */
export interface FieldRow {
  /** Path to the field: `timing.wait`; of the fields of a kind, `calibration (zero).short`. */
  readonly path: string
  /** What it takes, in words. */
  readonly takes: string
  readonly symbol: string
  readonly unit: string
  /** Its limits in words. */
  readonly limits: string
  /** What is taken where nothing is given; empty where it must be given or may be absent. */
  readonly otherwise: string
  readonly required: boolean
  readonly meaning: string
  readonly field: Field
}

/** Every field of a record in a flat table. @throws InputError for what is no record */
export function fieldsOf<F extends Fields>(record: Pick<RecordOf<F>, 'fields'>): FieldRow[] {
  return rowsOf(fieldsIn(record), '')
}

const rowsOf = (fields: Fields, prefix: string): FieldRow[] =>
  Object.entries(fields).flatMap(([word, field]) => rowOf(field, prefix + word))

function rowOf(field: Field, path: string): FieldRow[] {
  if (field.kind === 'part') return rowsOf(field.fields, `${path}.`)
  const spec = 'unit' in field ? { ...field, field: '' } : undefined
  const row: FieldRow = {
    path,
    takes: takes(field),
    symbol: 'symbol' in field && field.symbol !== undefined ? field.symbol : '',
    unit: spec?.unit ?? '',
    limits: spec ? limits(spec) : '',
    otherwise: written(field),
    required: !mayBeAbsent(field),
    meaning: field.meaning,
    field,
  }
  if (field.kind === 'list')
    return [row, ...rowOf(field.of, `${path}[]`).filter(({ path: own }) => own !== `${path}[]`)]
  if (field.kind === 'kinds') {
    const each = Object.entries(field.kinds as Record<string, Fields>)
    return [row, ...each.flatMap(([kind, own]) => rowsOf(own, `${path} (${kind}).`))]
  }
  return [row]
}

/** What a field takes, in words. */
function takes(field: Field): string {
  switch (field.kind) {
    case 'number':
      return 'number'
    case 'range':
      return field.orOne ? 'number or range { from, to }' : 'range { from, to }'
    case 'word':
      return field.words.map((one) => JSON.stringify(one)).join(' or ')
    case 'part':
      return 'part'
    case 'list':
      return `list of ${field.least} to ${field.most}`
    case 'kinds':
      return Object.keys(field.kinds)
        .map((one) => JSON.stringify(one))
        .join(' or ')
    case 'either':
      return [...field.words.map((one) => JSON.stringify(one)), takes(field.or)].join(' or ')
    case 'own':
      return 'see its meaning'
    default:
      return field.magnitude ? 'size or value with tolerance' : 'value with tolerance'
  }
}
