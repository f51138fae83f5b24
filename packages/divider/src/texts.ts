import { type Budget, type HeldRows, tightestText, verdictOf, verdictWords } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { ReadChoice } from './choice.js'

/** The answer in a sentence or two. */
export function summaryOf({ margins, budgets }: HeldRows, { load }: ReadChoice): string {
  const { linear, extremes, simulation, comparison } = budgets['R_ind'] as Budget
  const { slack, unit } = margins[0]!
  const ohm = (value: number) => format(value, 'ohm', { digits: 2 })
  const truth = load.nominal
  const reach = (lower: number, upper: number) => Math.max(upper - truth, truth - lower)
  // What is off on every board, as by a clipped output, counts with the spread about it.
  const most = reach(extremes.lower, extremes.upper)
  // Where simulation says that the linear interval isn't valid, its own counts.
  const [lower, upper] = (simulation && comparison?.agrees === false ? simulation : linear).interval
  const expected = Math.min(reach(lower, upper), most)
  const least = tightestText(margins[0]!, format(Math.abs(slack), unit, { digits: 2 }))
  const worth = `±${ohm(expected)} (${Math.round(100 * linear.level)} %), at worst ±${ohm(most)}`
  return `${verdictWords[verdictOf(margins)]}: ${least}. At ${format(truth, 'ohm')} expect ${worth}.`
}
