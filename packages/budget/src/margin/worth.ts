import { demandFinite, format } from '@ohmward/quantity'
import type { Budget } from '../budget/budget.js'
import { apart } from '../model/apart.js'
import { demandList } from '../model/options.js'
import { demandBudget } from './given.js'

/**
 * What a reading is worth, in words: `±14 mΩ (95 %), at worst ±32 mΩ`. The interval is the linear one, or the simulated
 * one where that doesn't bear the linear one out; what is off on every board, as by a clipped output, counts with the
 * spread about it. The worst case has three digits, the last rounded up: two would say up to a tenth more than there is.
 *
 * @param truth - the true value, in the budget's unit
 * @throws InputError
 */
export function worthText(budget: Budget, truth: number): string {
  demandBudget(budget)
  demandFinite('truth', truth)
  const { linear, extremes, simulation, comparison, unit } = budget
  const reach = (lower: number, upper: number) => Math.max(upper - truth, truth - lower)
  const most = reach(extremes.lower, extremes.upper)
  const [lower, upper] = (simulation && comparison?.agrees === false ? simulation : linear).interval
  const expected = Math.min(reach(lower, upper), most)
  const usual = format(expected, apart(unit), { digits: 2 })
  const worst = format(most, apart(unit), { digits: 3, towards: 'up' })
  return `±${usual} (${Math.round(100 * linear.level)} %), at worst ±${worst}`
}

/** Says which simulations stopped before they reached the accuracy that was asked for. @throws InputError */
export function stoppedShort(budgets: readonly Budget[]): string[] {
  demandList('budgets', budgets)
  budgets.forEach((one, i) => {
    demandBudget(one, `budgets[${i}]`)
  })
  return budgets.flatMap(({ quantity, unit, simulation }) =>
    simulation === undefined || simulation.converged
      ? []
      : [
          `The simulation of the ${quantity} stopped at ${simulation.trials} trials: the ends of its interval are known to ${format(simulation.endError, apart(unit), { digits: 1 })}.`,
        ],
  )
}
