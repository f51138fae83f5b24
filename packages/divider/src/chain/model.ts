import type { Fill, InputSet, Row } from '@ohmward/budget'
import { type DividerChoice, type DividerConditions, readChoice } from '../choice.js'
import { type Place, planOf } from './plan.js'

/** The reading of a choice as a model for the engines of the budget package. */
export interface DividerModel {
  /** Every input by symbol, as a spread or an exact number; `V_rail` and `T_d` (kelvin above 25 °C) are the conditions. */
  readonly inputs: InputSet
  /** Indicated resistance in ohms, calibrated where the choice says so. */
  readonly model: (x: Place) => number
  readonly row: Row<string>
  readonly fill: Fill<string>
}

/**
 * A choice as a model to propagate, to seek extremes in, or to simulate: `simulate({ ...inputs, V_rail: 3.3 }, model,
 * { row, fill })`. Inputs may be replaced by others of the same name. One model serves one engine at a time.
 *
 * @throws InputError naming the first field that isn't allowed
 */
export function dividerModel(choice: DividerChoice, conditions: DividerConditions): DividerModel {
  const { inputs, result: model, row, fill } = planOf(readChoice(choice, conditions))
  return { inputs, model, row, fill }
}
