import type { Simulation } from '../budget/budget.js'
import type { Inputs, Model } from '../model/model.js'
import { checkCall, shared } from '../model/options.js'
import { type Settings, type SimulateOptions, settingsOf, simulateNames } from './options.js'
import { plain } from './plain.js'
import { type Plan, plan } from './plan.js'
import type { Progress } from './progress.js'
import { quasi } from './quasi.js'
import { summary } from './summary.js'

export type { Limits, SimulateOptions } from './options.js'
export type { Progress } from './progress.js'

/**
 * A simulation that is run step by step: every `next()` does some thousand trials and gives the progress, the last one
 * gives the result of {@link simulate}. To stop it, don't ask for the next step.
 *
 * @throws InputError like {@link simulate}: for inputs and options at once, for the model at the step that meets it
 */
export function simulation<const K extends string>(
  inputs: Inputs<K>,
  model: Model<NoInfer<K>>,
  options: SimulateOptions<NoInfer<K>> = {},
): Generator<Progress, Simulation, void> {
  checkCall(inputs, model, options, [...shared, ...simulateNames])
  const settings = settingsOf(options)
  const made = plan(inputs, model, options)
  if (made.bundles.length === 0 && made.correlated.length === 0) return certain(made, settings)
  return settings.method === 'plain' ? plain(made, settings) : quasi(made, settings)
}

/**
 * Propagates the distributions of the inputs through the model (JCGM 101:2008): mean, standard uncertainty, symmetric
 * and shortest coverage interval, histogram. Right for models that are neither linear nor smooth.
 *
 * Without options it takes as many points as bring the standard error of the interval's ends down to 1 % of `u`. The
 * error is estimated from independent repetitions; `converged` says whether it was reached. The shortest interval has
 * the same probability and, near its minimum, a width that hardly depends on where it lies: its place is less certain
 * than the ends of the symmetric one, and has an error of its own, `shortestError`.
 *
 * Correlation coefficients are those of a Gaussian copula: of the normal deviates from which the inputs are made. For
 * normal inputs that is the correlation itself; for others the correlation of the values is a little smaller (two
 * rectangular inputs: `6/π · asin(coefficient/2)`). The members of a group move together, each in the direction that
 * adds to the others' effect at the expectation.
 *
 * `normal` and `t` inputs aren't cut off at their limits. A `normal` one with degrees of freedom is drawn from the scaled
 * t distribution that these make of it (JCGM 101:2008, 6.4.9); with 2 degrees of freedom or fewer that has no standard
 * deviation, and `u` then says little. One simulation evaluates the model several thousand times.
 *
 * @param inputs - by name, each a number or a spread
 * @throws InputError for an input or an option outside what is allowed, correlations that contradict one another, and
 *   a model whose result isn't finite for values that the inputs can take
 */
export function simulate<const K extends string>(
  inputs: Inputs<K>,
  model: Model<NoInfer<K>>,
  options: SimulateOptions<NoInfer<K>> = {},
): Simulation {
  const run = simulation(inputs, model, options)
  for (;;) {
    const step = run.next()
    if (step.done) return step.value
  }
}

/** The answer where nothing varies: one evaluation says all. */
// biome-ignore lint/correctness/useYield: there is no step in between
function* certain({ evaluate }: Plan, settings: Settings): Generator<Progress, Simulation, void> {
  const values = new Float64Array(1)
  evaluate(values, 0, 1)
  const value = values[0]!
  const { limits } = settings
  const within = limits && value >= limits.lower && value <= limits.upper ? 1 : 0
  const ends = [value, value] as const
  const found = { mean: value, u: 0, interval: ends, shortest: ends, endError: 0, shortestError: 0 }
  return summary(values, limits ? { ...found, within, withinError: 0 } : found, settings)
}
