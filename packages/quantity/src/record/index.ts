export { bareText } from './bare.js'
export {
  type Check,
  type EitherField,
  either,
  exactly,
  type Field,
  type Fields,
  joined,
  type KindsField,
  kinds,
  type ListField,
  list,
  type NumberField,
  type OwnField,
  own,
  type PartOf,
  part,
  type RangeField,
  type RecordOf,
  range,
  record,
  type SpreadField,
  spread,
  type WordField,
  word,
} from './field.js'
export { oneOf, readRecord } from './read.js'
export { type Schema, schemaOf } from './schema.js'
export { type FieldRow, fieldsOf } from './table.js'
export { type Taken, takenFor } from './taken.js'
export type { Given, Read, SpreadOf } from './types.js'
