export * from './firmware/integers.js'
export * from './firmware/prove.js'
export * from './firmware/scale-linear.js'
export * from './firmware/scale-rational.js'
export {
  currentTarget,
  type Line,
  type LinearTarget,
  ofSum,
  type RationalTarget,
  railTarget,
  resistanceTarget,
  type Target,
  targetAt,
} from './firmware/target.js'
export * from './firmware/text.js'
