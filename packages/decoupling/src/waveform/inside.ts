/* What the rail is followed with inside the package: nothing is checked here. */
export { type BiasedBranch, type Content, contentAt, straightened } from './charging/biased.js'
export { type Curve, factorAt } from './charging/curve.js'
export { type PlugIn, plugIn, plugInBiased } from './charging/plug-in.js'
export { type Circuit, circuit, type Load, type Pwm, type Source } from './circuit.js'
export type { Placed } from './course.js'
export { type DiodeCurve, type DiodePwm, respondThroughDiode } from './diode/steady.js'
export { type Allowance, effort, type Watched } from './effort.js'
export { Lately } from './lately.js'
export type { Branch } from './modes/parts.js'
export { period } from './periodic.js'
export type { Piece, State } from './piece.js'
export {
  currentsOf,
  meanSquares,
  type PwmCurrents,
  type PwmResponse,
  type PwmStart,
  pwmCurrents,
  pwmStart,
  respondToPwm,
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
export { addSquares, integralOfProduct } from './signal/integral.js'
export { lowest } from './signal/lowest.js'
export { at, derivative, envelope, later, negative, type Signal } from './signal/signal.js'
