import type { Budget, Extremes, LinearBudget, Simulation } from './budget.js'
import { compare } from './compare.js'
import { extremes } from './extremes.js'
import { propagate } from './linear.js'
import type { EngineOptions, Inputs, Model } from './model.js'
import { type SimulateOptions, simulate } from './simulation/index.js'

/** What a budget is made for. */
export interface BudgetSpec<K extends string> extends EngineOptions<K> {
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

/** One output's budget: linear propagation, true extremes and, unless left out, simulation and the comparison of the two. */
export function budgetOf<const K extends string>({
  symbol,
  quantity,
  unit,
  inputs,
  model,
  extremes: known,
  simulation = {},
  ...options
}: BudgetSpec<K>): Budget {
  const linear = propagate(inputs, model, options)
  const limits = known ?? extremes(inputs, model, options)
  if (simulation === false) return { symbol, quantity, unit, linear, extremes: limits }
  const simulated = simulate(inputs, model, { ...options, ...simulation })
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
