export * from './block/index.js'
export type {
  Budget,
  Comparison,
  Contribution,
  Extremes,
  Histogram,
  LinearBudget,
  Simulation,
} from './budget/budget.js'
export { compare } from './budget/compare.js'
export { type BudgetSpec, budgetOf } from './budget/make-budget.js'
export { extremes } from './extremes/extremes.js'
export { behind, type Chain, type ComputedBy, chain, type NeededBy, type PlaceOf } from './formula/chain.js'
export { type Derivation, type DerivationStep, derive } from './formula/derivation.js'
export type { AnyFormula, Formula, FormulaText, InputRange, Values } from './formula/formula.js'
export { at, formula } from './formula/looked-at.js'
export { propagate } from './linear/linear.js'
export { type LinearBudgets, propagateAll } from './linear/several.js'
export type { Assessment, Caution, Margin, Verdict } from './margin/assessment.js'
export { dangerFirst, designAid, hotLoad, lithiumIon } from './margin/cautions.js'
export { type Circumstances, type Station, worstStation } from './margin/conditions.js'
export {
  type DecisionRule,
  furthestStation,
  type MarginSpec,
  type MarginText,
  marginOf,
  plainMargin,
  type WorstCase,
  worstCaseOf,
} from './margin/margin.js'
export {
  causesFirst,
  faultText,
  readRule,
  relativeSlack,
  tightestText,
  verdictOf,
  verdictWords,
} from './margin/verdict.js'
export { stoppedShort, worthText } from './margin/worth.js'
export type {
  Columns,
  Correlation,
  EngineOptions,
  Fill,
  Group,
  Inputs,
  LinearOptions,
  Model,
  Row,
} from './model/model.js'
export { readings, type Simultaneous, simultaneous } from './model/readings.js'
export { type Signal, type SimulateAsyncOptions, simulateAsync } from './simulation/async.js'
export { type Limits, type Progress, type SimulateOptions, simulate, simulation } from './simulation/index.js'
