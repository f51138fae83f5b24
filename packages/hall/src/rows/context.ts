import type { InputSet, Reading } from '@ohmward/budget'
import type { Plan } from '../chain/plan.js'
import type { ReadChoice } from '../read-choice.js'

/** What a group of rows is made from. */
export interface RowContext {
  readonly choice: ReadChoice
  readonly plan: Plan
  /** The reading of the current, every value by symbol. */
  readonly reading: Reading
}

/** A current in the on-window, nothing averaged. */
export const inWindow = (I_x: number): InputSet => ({ I_x, D_x: 1, w_x: 0 })
