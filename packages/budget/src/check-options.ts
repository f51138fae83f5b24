import type { DecisionRule } from './margin.js'
import { knownOptions } from './options.js'
import { type SimulateOptions, settingsOf, simulateNames } from './simulation/options.js'
import { readRule } from './verdict.js'

/** How the budgets of a check are simulated; what is asked of each is the block's own. */
export type CheckSimulation = Pick<SimulateOptions<string>, 'seed' | 'accuracy' | 'trials' | 'maximumTrials' | 'method'>

/** How a check is made: the same for every block. */
export interface CheckOptions extends DecisionRule {
  /** `false` leaves the simulation out, for speed; or how to simulate. */
  readonly simulation?: false | CheckSimulation
}

/** Options of a check, read: what was left out is there. */
export interface ReadCheckOptions extends DecisionRule {
  readonly simulation: false | CheckSimulation
}

/**
 * Reads the options of a check.
 *
 * @param given - `undefined` takes what is usual: a simulation, and every margin held at its worst case
 * @throws InputError for an option that doesn't exist, with the nearest that does, or one outside what is allowed
 */
export function readCheckOptions(given: CheckOptions = {}): ReadCheckOptions {
  const { simulation = {}, accept } = knownOptions(given, ['simulation', 'accept'])
  if (simulation !== false) settingsOf(knownOptions(simulation, simulateNames, 'options.simulation'))
  return { simulation, ...readRule(accept) }
}
