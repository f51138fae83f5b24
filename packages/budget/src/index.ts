export type { Assessment, Caution, Margin, Verdict } from './assessment.js'
export type { Budget, Comparison, Contribution, Extremes, Histogram, LinearBudget, Simulation } from './budget.js'
export { type Derivation, type DerivationStep, derive } from './derivation.js'
export {
  type AnyFormula,
  at,
  type Formula,
  type FormulaText,
  formula,
  type InputRange,
  type Values,
} from './formula.js'
export type { Columns, Correlation, EngineOptions, Group, Inputs, Model, Row } from './model.js'
