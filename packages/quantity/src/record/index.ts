export { bareText } from './bare.js'
export type {
  Check,
  EitherField,
  Field,
  Fields,
  KindsField,
  ListField,
  NumberField,
  OwnField,
  PartOf,
  RangeField,
  RecordOf,
  SpreadField,
  WordField,
} from './field.js'
export { either, exactly, joined, kinds, list, own, part, range, record, spread, word } from './make.js'
export { name } from './name.js'
export { oneOf, readRecord } from './read.js'
export { type Schema, schemaOf } from './schema.js'
export { settled } from './settled.js'
export { type FieldRow, fieldsOf } from './table.js'
export { type Taken, takenFor } from './taken.js'
export type { Given, Read, SpreadOf } from './types.js'
