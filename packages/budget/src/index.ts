export type { Assessment, Caution, Margin, Verdict } from './assessment.js'
export * from './block/index.js'
export type { Budget, Comparison, Contribution, Extremes, Histogram, LinearBudget, Simulation } from './budget.js'
export { behind, type Chain, type ComputedBy, chain, type NeededBy, type PlaceOf } from './chain.js'
export { compare } from './compare.js'
export { type Circumstances, type Station, worstStation } from './conditions.js'
export { acceptanceLimits, conformity, type Guard, guardBand, type Interval, type Known } from './conformity.js'
export { type GlobalRisks, globalRisks, type Inspection } from './conformity-risks.js'
export { type Derivation, type DerivationStep, derive } from './derivation.js'
export { extremes } from './extremes.js'
export {
  type AnyFormula,
  at,
  type Formula,
  type FormulaText,
  formula,
  type InputRange,
  type Values,
} from './formula.js'
export { propagate } from './linear.js'
export { type BudgetSpec, budgetOf } from './make-budget.js'
export {
  type DecisionRule,
  errorMargin,
  furthestStation,
  limitMargin,
  type MarginSpec,
  type MarginText,
  marginOf,
  plainMargin,
} from './margin.js'
export type { Columns, Correlation, EngineOptions, Fill, Group, Inputs, LinearOptions, Model, Row } from './model.js'
export { type Moments, moments } from './moments.js'
export { normalDensity, normalProbability, normalQuantile } from './normal.js'
export { readings, type Simultaneous, simultaneous } from './readings.js'
export { type LinearBudgets, propagateAll } from './several.js'
export { type Signal, type SimulateAsyncOptions, simulateAsync } from './simulation/async.js'
export { type Limits, type Progress, type SimulateOptions, simulate, simulation } from './simulation/index.js'
export { studentProbability, studentQuantile } from './student.js'
export { ordered, readRule, relativeSlack, tightestText, verdictOf, verdictWords } from './verdict.js'
