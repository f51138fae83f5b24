import type { EngineOptions, Fill, InputSet, Row } from '@ohmward/budget'
import { readNumber } from '@ohmward/quantity'
import type { HallChoice, HallConditions } from '../choice.js'
import { readChoice } from '../read-choice.js'
import { type Place, planOf } from './plan.js'

/** The reading of a choice as a model for the engines of the budget package. */
export interface HallModel {
  /** Every input by symbol, as a spread or an exact number; `V_rail` and `T_d` (kelvin above 25 °C) are the conditions. */
  readonly inputs: InputSet
  /** Indicated current in amperes, less the zero where the choice says so. */
  readonly model: (x: Place) => number
  readonly row: Row<string>
  readonly fill: Fill<string>
  readonly groups: NonNullable<EngineOptions<string>['groups']>
}

/**
 * A choice at a current as a model to propagate, to seek extremes in, or to simulate: `simulate({ ...inputs, V_rail: 3.3,
 * T_d: 0 }, model, { row, fill, groups })`. Inputs may be replaced by others of the same name. One model serves one engine
 * at a time.
 *
 * @param current - amperes
 * @throws InputError naming the first field that isn't allowed
 */
export function hallModel(choice: HallChoice, conditions: HallConditions, current: number | string): HallModel {
  const I_x = readNumber(current, { field: 'current', unit: 'A', min: -1e4, max: 1e4 })
  const { inputs, at, result: model, row, fill, groups } = planOf(readChoice(choice, conditions))
  return { inputs: { ...inputs, ...at(I_x) }, model, row, fill, groups }
}
