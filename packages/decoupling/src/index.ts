export { type Board, boardAt } from './board.js'
export { type RailAnswer, railOf, steadyRail } from './chain.js'
export {
  checkDecoupling,
  type DecouplingAssessment,
  type DecouplingBudgets,
  type DecouplingOptions,
  type PwmSummary,
} from './check.js'
export type { DecouplingChoice, DecouplingConditions, ReadCapacitor, ReadDecoupling, SwitchedLoad } from './choice.js'
export { type Regime, regimeOf } from './derivation.js'
export * from './examples.js'
export * from './formulas/index.js'
export { type SizedHoldUp, sizeHoldUp } from './hold-up.js'
export { conditionNames, type InputSet, inputsOf } from './inputs.js'
export { limitWords, type RailLimit } from './margins.js'
export { railLimitMargins } from './over-source.js'
export * from './parts.js'
export type { RailPicture } from './picture.js'
export type { CelsiusPoint, Curve, VoltPoint } from './points.js'
export { readDecoupling } from './read-choice.js'
export type { Remedy } from './remedies.js'
export {
  type DecouplingRequirement,
  type DecouplingSizing,
  exampleStock,
  type ListedChoice,
  type RejectedDecoupling,
  type SizedDecoupling,
  sizeDecoupling,
} from './size.js'
export * from './waveform/index.js'
