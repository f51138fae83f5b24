import type { DecisionRule } from '../margin.js'
import type { SimulateOptions } from '../simulation/index.js'

/** How budgets are simulated; `false` leaves it out. */
export type Simulate = false | Pick<SimulateOptions<string>, 'seed' | 'accuracy' | 'maximumTrials' | 'trials'>

/** How a check is made; the same for every block. */
export interface CheckOptions extends DecisionRule {
  /** `false` leaves the simulation out, for speed; or how to simulate. */
  readonly simulation?: Simulate
}
