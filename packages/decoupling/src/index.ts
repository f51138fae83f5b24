export type { DecouplingAssessment, DecouplingBudgets } from './assessment.js'
export { checkDecoupling, decoupling, decouplingChanges, railLimitMargins, sweepDecoupling } from './block.js'
export { type Board, boardAt } from './chain/board.js'
export type {
  DecouplingChoice,
  DecouplingConditions,
  ReadCapacitor,
  ReadDecoupling,
  SwitchedLoad,
} from './choice/choice.js'
export { conditionNames, type InputSet, inputsOf } from './choice/inputs.js'
export { readDecoupling } from './choice/read.js'
export { type Regime, regimeOf } from './derivation/derivation.js'
export * from './formulas/index.js'
export * from './parts/examples.js'
export * from './parts/index.js'
export { exampleStock } from './parts/stock.js'
export { type SizedHoldUp, sizeHoldUp } from './rail/hold-up.js'
export { limitWords, type RailLimit } from './rail/limits.js'
export type { RailPicture } from './rail/picture.js'
export type { PwmSummary } from './rail/pwm-summary.js'
export { type RailAnswer, railOf } from './rail/rail.js'
export type { SteadySag } from './rail/sag.js'
export { steadyRail } from './rail/steady.js'
export type { Remedy } from './remedies/remedy.js'
export { sizeDecoupling } from './sizing/size.js'
export type {
  DecouplingRequirement,
  DecouplingSizing,
  ListedChoice,
  RejectedDecoupling,
  SizedDecoupling,
} from './sizing/sizing.js'
export * from './waveform/index.js'
