import { type Budget, type HeldRows, tightestText, verdictOf, verdictWords } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { ReadChoice } from './choice.js'

/** The answer in a sentence or two. */
export function summaryOf({ margins, budgets }: HeldRows, { load }: ReadChoice): string {
  const { linear, extremes } = budgets['R_ind'] as Budget
  const { slack, unit } = margins[0]!
  const ohm = (value: number) => format(value, 'ohm', { digits: 2 })
  const truth = load.nominal
  const reach = (lower: number, upper: number) => Math.max(upper - truth, truth - lower)
  // What is off on every board, as by a clipped output, counts with the spread about it.
  const most = reach(extremes.lower, extremes.upper)
  const expected = Math.min(reach(...linear.interval), most)
  const least = tightestText(margins[0]!, format(Math.abs(slack), unit, { digits: 2 }))
  const worth = `±${ohm(expected)} (${Math.round(100 * linear.level)} %), at worst ±${ohm(most)}`
  return `${verdictWords[verdictOf(margins)]}: ${least}. At ${format(truth, 'ohm')} expect ${worth}.`
}
