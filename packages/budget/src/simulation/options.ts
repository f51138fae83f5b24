import { InputError } from '@ohmward/quantity'
import type { EngineOptions } from '../model/model.js'
import { knownOptions } from '../model/options.js'

/** How a simulation is run. */
export interface SimulateOptions<K extends string> extends EngineOptions<K> {
  /** Whole number, 0 or more; 1 by default. The same call with the same seed gives the same answer. */
  readonly seed?: number
  /** Wanted standard error of the interval's ends, as a fraction of `u`; 0.01 by default. */
  readonly accuracy?: number
  /** Exactly this many trials instead (`'quasi'`: at least this many, up to 16 million). Means `method: 'plain'` by default otherwise. */
  readonly trials?: number
  /** Where to stop though the accuracy isn't reached; one million by default. */
  readonly maximumTrials?: number
  /**
   * `'plain'`: pseudorandom trials in batches (JCGM 101:2008, 7.9). `'quasi'`: randomly shifted lattice points, held
   * against the linear part of the model; the usual one, since it meets the accuracy with far fewer trials.
   */
  readonly method?: 'plain' | 'quasi'
  /** Asks for the probability that the output lies within these limits. */
  readonly limits?: Limits
}

/** Limits of an output; a missing one is no limit. */
export interface Limits {
  readonly lower?: number
  readonly upper?: number
}

/** Options with their defaults. */
export interface Settings {
  readonly seed: number
  readonly level: number
  readonly accuracy: number
  readonly trials: number | undefined
  readonly maximumTrials: number
  readonly method: 'plain' | 'quasi'
  readonly limits: Required<Limits> | undefined
}

/** Options of a simulation by name, those that all engines share apart. */
export const simulateNames = ['seed', 'accuracy', 'trials', 'maximumTrials', 'method', 'limits'] as const

const MOST = 50_000_000

/** @throws InputError for an option outside what is allowed */
export function settingsOf<K extends string>(options: SimulateOptions<K>): Settings {
  const { seed = 1, level = 0.95, accuracy = 0.01, trials, maximumTrials = 1_000_000, limits } = options
  const { method = trials === undefined ? 'quasi' : 'plain' } = options
  const whole = (field: string, value: number, from: number, to: number) =>
    demand(
      Number.isInteger(value) && value >= from && value <= to,
      field,
      value,
      `a whole number from ${from} to ${to}`,
    )
  whole('seed', seed, 0, Number.MAX_SAFE_INTEGER)
  demand(typeof level === 'number' && level > 0 && level < 1, 'level', level, 'more than 0 and less than 1')
  demand(
    typeof accuracy === 'number' && accuracy > 0 && accuracy < 1,
    'accuracy',
    accuracy,
    'more than 0 and less than 1',
  )
  if (trials !== undefined) whole('trials', trials, 100, MOST)
  whole('maximumTrials', maximumTrials, 2048, MOST)
  demand(method === 'plain' || method === 'quasi', 'method', method, "'plain' or 'quasi'")
  const { lower = -Infinity, upper = Infinity } =
    limits === undefined ? {} : knownOptions(limits, ['lower', 'upper'], 'limits')
  for (const [field, limit] of Object.entries({ 'limits.lower': lower, 'limits.upper': upper })) {
    demand(typeof limit === 'number', field, limit, 'a number')
  }
  demand(lower < upper, 'limits.lower', lower, 'less than limits.upper')
  return { seed, level, accuracy, trials, maximumTrials, method, limits: limits && { lower, upper } }
}

function demand(fine: boolean, field: string, value: unknown, allowed: string): void {
  if (!fine) throw new InputError({ field, value, allowed })
}
