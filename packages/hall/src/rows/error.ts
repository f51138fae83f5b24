import {
  type Budget,
  budgetOf,
  type DecisionRule,
  errorMargin,
  furthestStation,
  type Margin,
  type SimulateOptions,
} from '@ohmward/budget'
import { format, type Input } from '@ohmward/quantity'
import type { Plan } from '../chain/plan.js'
import { remedies } from './remedies.js'

/** How budgets are simulated; `false` leaves it out. */
export type Simulate = false | Pick<SimulateOptions<string>, 'seed' | 'accuracy' | 'maximumTrials'>

/** A budget and its margin. */
export interface Judged {
  readonly budget: Budget
  readonly margin: Margin
}

const catches = ['E02', 'E03', 'E04', 'E05', 'E06', 'E07']

/** The error of the reading at one current, at the conditions where it can be furthest off. */
export function currentError(
  plan: Plan,
  { at, allowed }: { readonly at: number; readonly allowed: number },
  index: number,
  rule: DecisionRule,
  simulate: Simulate,
): Judged {
  const { row, fill, conditions, result, groups } = plan
  const inputs = plan.inputs(at) as Record<string, Input>
  const station = furthestStation({ inputs, row, conditions }, result, at)
  const budget = budgetOf({
    symbol: plan.zeroOutput ? 'I_cor' : 'I_ind',
    quantity: `indicated current at ${format(at, 'A')}`,
    unit: 'A',
    inputs: station.inputs,
    model: result,
    row,
    fill,
    groups,
    extremes: station.extremes,
    simulation: simulate && { ...simulate, limits: { lower: at - allowed, upper: at + allowed } },
  })
  const text = {
    id: `error-${index + 1}`,
    name: `error at ${format(at, 'A')}`,
    unit: 'A',
    sense: 'at most',
    remedies: remedies.error,
    catches,
  } as const
  return { budget, margin: errorMargin(text, at, allowed, station, budget, rule) }
}
