import { type Budget, type HeldRows, tightestText, verdictOf, verdictWords, worthText } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { ReadChoice } from './choice.js'

/** The answer in a sentence or two. */
export function summaryOf({ margins, budgets }: HeldRows, { load }: ReadChoice): string {
  const least = tightestText(margins[0]!)
  const worth = worthText(budgets['R_ind'] as Budget, load.nominal)
  return `${verdictWords[verdictOf(margins)]}: ${least}. At ${format(load.nominal, 'ohm')} expect ${worth}.`
}
