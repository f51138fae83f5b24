import { demandText } from '@ohmward/quantity'
import { extremes } from '../extremes/extremes.js'
import { linearNames, propagate } from '../linear/linear.js'
import type { EngineOptions, Inputs, LinearOptions, Model } from '../model/model.js'
import { knownOptions } from '../model/options.js'
import { type SimulateOptions, simulate } from '../simulation/index.js'
import { simulateNames } from '../simulation/options.js'
import type { Budget, Extremes, LinearBudget, Simulation } from './budget.js'
import { compare } from './compare.js'

/** What a budget is made for. */
export interface BudgetSpec<K extends string> extends Omit<LinearOptions<K>, 'unit'> {
  readonly symbol: string
  readonly quantity: string
  readonly unit: string
  readonly inputs: Inputs<K>
  readonly model: Model<NoInfer<K>>
  /** The extremes, where they are known already. */
  readonly extremes?: Extremes
  /** How to simulate; `false` leaves the simulation out. */
  readonly simulation?: false | Omit<SimulateOptions<K>, keyof EngineOptions<K>>
}

const names = /*#__PURE__*/ ['symbol', 'quantity', 'unit', 'inputs', 'model', 'extremes', 'simulation'].concat(
  linearNames,
)

/**
 * One output's budget: linear propagation, true extremes and, unless left out, simulation and the comparison of the two.
 * With a coverage factor `k` the simulated interval has the level that it covers.
 *
 * @throws InputError like {@link propagate}, {@link extremes} and {@link simulate}, and for an option that doesn't exist
 */
export function budgetOf<const K extends string>(spec: BudgetSpec<K>): Budget {
  const {
    symbol,
    quantity,
    unit,
    inputs,
    model,
    extremes: limitsKnown,
    simulation = {},
    k,
    ...options
  } = knownOptions(spec, names, 'budget')
  demandText('symbol', symbol)
  demandText('quantity', quantity)
  if (simulation !== false) knownOptions(simulation, simulateNames, 'simulation')
  const linear = propagate(inputs, model, { ...options, unit, ...(k !== undefined && { k }) })
  const limits = limitsKnown ?? extremes(inputs, model, options)
  if (simulation === false) return { symbol, quantity, unit, linear, extremes: limits }
  const simulated = simulate(inputs, model, { ...options, ...simulation, level: linear.level })
  return {
    symbol,
    quantity,
    unit,
    linear,
    extremes: limits,
    simulation: simulated,
    comparison: compared(linear, simulated, unit),
  }
}

/** To two significant digits of `u`; to one where the simulation isn't accurate enough to tell (JCGM 101:2008, 7.9.2). */
function compared(linear: LinearBudget, simulated: Simulation, unit: string) {
  const fine = compare(linear, simulated, { unit })
  return fine.decided ? fine : compare(linear, simulated, { digits: 1, unit })
}
