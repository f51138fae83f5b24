export type { BiasedBranch } from './charging/biased.js'
export type { Curve } from './charging/curve.js'
export type { PlugIn } from './charging/plug-in.js'
export type { Circuit, Load, Pwm, Source } from './circuit.js'
export type { Placed } from './course.js'
export {
  circuit,
  highestOf,
  plugIn,
  plugInBiased,
  pwmCurrents,
  respondTo,
  respondToPwm,
  voltageAt,
} from './given.js'
export type { Branch } from './modes/parts.js'
export type { Piece } from './piece.js'
export type { PwmCurrents, PwmResponse } from './pwm.js'
export type { Extreme, Response, Timing } from './response.js'
export type { Signal } from './signal/signal.js'
