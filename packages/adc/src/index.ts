export {
  type Averaged,
  averaged,
  type Code,
  type Scale,
  type Transitions,
  toCode,
  toVolts,
  transition,
} from './convert.js'
export * from './examples.js'
export {
  currentTarget,
  execute,
  type Integers,
  type Line,
  type LinearIntegers,
  type LinearTarget,
  largestOf,
  ofSum,
  type Proof,
  prove,
  type RationalIntegers,
  type RationalOptions,
  type RationalTarget,
  railTarget,
  resistanceTarget,
  type Scaling,
  scaleLinear,
  scaleRational,
  type Target,
  type TextOptions,
  targetAt,
  toC,
  toTypeScript,
  type Word,
} from './firmware.js'
export * from './internal-reference.js'
export {
  type BySymbol,
  type Converter,
  converterField,
  converterFields,
  converterRecord,
  type ReadConverter,
  type ReferenceInput,
  readConverter,
} from './parts.js'
export { missedCounts, type SampledFilter } from './sampling.js'
export * from './schedule.js'
