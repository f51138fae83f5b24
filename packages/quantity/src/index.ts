export type { Coded, CodeTolerance } from './preferred/code.js'
export { capacitorCode, readCapacitorCode, readResistorCode, resistorCode } from './preferred/part-code.js'
export {
  nearest,
  nextDown,
  nextUp,
  preferredAtLeast,
  preferredAtMost,
  preferredIn,
  preferredValues,
} from './preferred/preferred.js'
export type { Series } from './preferred/series.js'
export { demand, demandFinite } from './read/demand.js'
export { demandNumber, demandNumbers } from './read/demand-number.js'
export { demandShape, demandText, type Shape } from './read/demand-shape.js'
export { InputError, type InputProblem } from './read/error.js'
export type { FieldSpec } from './read/field.js'
export { missingFields } from './read/missing-fields.js'
export { nearestName } from './read/nearest-name.js'
export type { PartField, PartFields, PartInput } from './read/part-field.js'
export { readNumber } from './read/read-number.js'
export { readPart } from './read/read-part.js'
export { readRange } from './read/read-range.js'
export * from './record/index.js'
export {
  between,
  demandSpread,
  exact,
  nominalOf,
  percent,
  plusMinus,
  ppm,
  relative,
  scaled,
} from './spread/make-spread.js'
export { readSpread } from './spread/read-spread.js'
export type { Distribution, Input, Range, Spread } from './spread/spread.js'
export { type FormatOptions, format, formatParts, typographic } from './unit/format.js'
export type { Unit, UnitSymbol } from './unit/unit.js'
