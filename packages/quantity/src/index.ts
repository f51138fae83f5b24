export type { Coded, CodeTolerance } from './code.js'
export { InputError, type InputProblem } from './error.js'
export type { FieldSpec } from './field.js'
export { type FormatOptions, format, formatParts, typographic } from './format.js'
export { between, exact, nominalOf, percent, plusMinus, ppm, relative, scaled } from './make-spread.js'
export { missingFields } from './missing-fields.js'
export { nearestName } from './nearest-name.js'
export { capacitorCode, readCapacitorCode, readResistorCode, resistorCode } from './part-code.js'
export {
  nearest,
  nextDown,
  nextUp,
  preferredAtLeast,
  preferredAtMost,
  preferredIn,
  preferredValues,
} from './preferred.js'
export { readNumber } from './read-number.js'
export { type PartField, type PartFields, type PartInput, readPart } from './read-part.js'
export { readRange } from './read-range.js'
export { readSpread } from './read-spread.js'
export * from './record/index.js'
export type { Series } from './series.js'
export type { Distribution, Input, Range, Spread } from './spread.js'
export type { Unit, UnitSymbol } from './unit.js'
