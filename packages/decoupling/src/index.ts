export type { DecouplingAssessment, DecouplingBudgets } from './assessment.js'
export { checkDecoupling, decoupling, decouplingChanges, railLimitMargins, sweepDecoupling } from './block.js'
export { remedies as decouplingRemedies } from './changes/index.js'
export type { DecouplingChoice, DecouplingConditions, SwitchedLoad } from './choice/choice.js'
export { choiceRecord as decouplingRecord, conditionsRecord as decouplingConditions } from './choice/record.js'
export * from './parts/examples.js'
export * from './parts/index.js'
export { exampleStock } from './parts/stock.js'
export { type SizedHoldUp, sizeHoldUp } from './rail/hold-up.js'
export type { ReleasedRail, SampledRail, Sampling } from './rail/in-pulse.js'
export type { RailLimit } from './rail/limits.js'
export type { RailPicture } from './rail/picture.js'
export type { PwmSummary } from './rail/pwm-summary.js'
export type { SteadySag } from './rail/sag.js'
export { sampledRail } from './rail/sampled.js'
export { sizeDecoupling } from './sizing/size.js'
export type {
  DecouplingRequirement,
  DecouplingSizing,
  ListedChoice,
  RejectedDecoupling,
  SizedDecoupling,
} from './sizing/sizing.js'
