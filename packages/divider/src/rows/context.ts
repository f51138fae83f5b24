import type { Reading } from '@ohmward/budget'
import type { Plan } from '../chain/plan.js'
import type { ReadChoice } from '../choice.js'

/** What a group of rows is made from. */
export interface RowContext {
  readonly choice: ReadChoice
  readonly plan: Plan
  /** The reading of the load, every value by symbol. */
  readonly reading: Reading
}
