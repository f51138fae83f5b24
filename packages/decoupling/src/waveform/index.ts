export { type BiasedBranch, type Content, contentAt } from './biased.js'
export { type Circuit, circuit, type Load, type Source } from './circuit.js'
export type { Placed } from './course.js'
export { integralOfProduct } from './integral.js'
export { lowest } from './lowest.js'
export type { Branch } from './network.js'
export type { Piece } from './piece.js'
export { type PlugIn, plugIn, plugInBiased, straightened } from './plug-in.js'
export {
  type Pwm,
  type PwmCurrents,
  type PwmResponse,
  type PwmStart,
  pwmCurrents,
  pwmStart,
  respondToPwm,
  rippleCurrents,
} from './pwm.js'
export { branchCurrent, branchVoltage, loadCurrent, sourceCurrent } from './quantities.js'
export {
  type Extreme,
  extremeOf,
  highestAbove,
  highestOf,
  type Response,
  respondTo,
  type Timing,
  voltageAt,
} from './response.js'
export { at, derivative, envelope, negative, type Signal } from './signal.js'
