import type { DecisionRule } from '../margin/margin.js'
import { readRule } from '../margin/verdict.js'
import { knownOptions } from '../model/options.js'
import type { SimulateOptions } from '../simulation/index.js'
import { settingsOf } from '../simulation/options.js'

/** Where a check's simulation stops unless more is asked for: about half a second for the slowest chain. */
const TRIALS = 65_536

/** How budgets are simulated; `false` leaves it out. `maximumTrials` is 65,536 by default: whether that was enough, `converged` says. */
export type Simulate = false | Pick<SimulateOptions<string>, (typeof simulated)[number]>

/** How a check is made; the same for every block. */
export interface CheckOptions extends DecisionRule {
  /** `false` leaves the simulation out, for speed; or how to simulate. */
  readonly simulation?: Simulate
}

/** Options of a check, read: what was left out is there. */
export interface ReadCheckOptions extends DecisionRule {
  readonly simulation: Simulate
}

const simulated = ['seed', 'accuracy', 'trials', 'maximumTrials', 'method'] as const

/**
 * Reads the options of a check.
 *
 * @param given - nothing takes what is usual: a simulation, and every margin held at its worst case
 * @throws InputError for an option that doesn't exist, with the nearest that does, or one outside what is allowed
 */
export function readCheckOptions(given: CheckOptions = {}): ReadCheckOptions {
  const { simulation = {}, accept } = knownOptions(given, ['simulation', 'accept'])
  if (simulation !== false) settingsOf(knownOptions(simulation, simulated, 'options.simulation'))
  return { simulation: simulation && { maximumTrials: TRIALS, ...simulation }, ...readRule(accept) }
}
