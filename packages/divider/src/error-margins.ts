import {
  type Budget,
  budgetOf,
  type DecisionRule,
  errorMargin,
  furthestStation,
  type Margin,
  type SimulateOptions,
} from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import type { ReadChoice } from './choice.js'
import { allowedAt } from './margins.js'
import type { Plan } from './plan.js'
import { remedies } from './remedies.js'
import { temperaturePlan } from './temperature-plan.js'

/** How budgets are simulated; `false` leaves it out. */
export type Simulate = false | Pick<SimulateOptions<string>, 'seed' | 'accuracy' | 'maximumTrials'>

/** A budget and its margin. */
export interface Judged {
  readonly budget: Budget
  readonly margin: Margin
}

const catches = ['A03', 'A08', 'A09', 'B02', 'B03', 'B04', 'B05', 'B09']

/** The error of the indicated resistance at one resistance, at the conditions where it can be furthest off. */
export function resistanceError(
  choice: ReadChoice,
  plan: Plan,
  R_x: number,
  name: string,
  rule: DecisionRule,
  simulate: Simulate,
): Judged {
  const { row, fill, conditions, result } = plan
  const inputs = { ...plan.inputs, R_x } as Record<string, Input>
  const allowed = allowedAt(choice, R_x)
  const station = furthestStation({ inputs, row, conditions }, result, R_x)
  const budget = budgetOf({
    symbol: 'R_ind',
    quantity: `indicated resistance, ${name} load`,
    unit: 'ohm',
    inputs: station.inputs,
    model: result,
    row,
    fill,
    extremes: station.extremes,
    simulation: simulate && { ...simulate, limits: { lower: R_x - allowed, upper: R_x + allowed } },
  })
  const text = {
    id: `error-${name}`,
    name: `error at the ${name} load`,
    unit: 'ohm',
    sense: 'at most',
    remedies: choice.topology === 'load at rail' ? remedies.errorAtRail : remedies.error,
    catches,
  } as const
  return { budget, margin: errorMargin(text, R_x, allowed, station, budget, rule) }
}

/** The error of the indicated temperature. */
export function temperatureError(choice: ReadChoice, plan: Plan, rule: DecisionRule, simulate: Simulate): Judged {
  const thermometry = choice.thermometry!
  const { inputs, row, conditions, result } = temperaturePlan(choice, plan, thermometry)
  const { hotCelsius, error } = thermometry.part
  const truth = hotCelsius.nominal
  const station = furthestStation({ inputs: inputs as Record<string, Input>, row, conditions }, result, truth)
  const budget = budgetOf({
    symbol: 'T_ind',
    quantity: 'indicated temperature',
    unit: 'degC',
    inputs: station.inputs,
    model: result,
    row,
    extremes: station.extremes,
    simulation: simulate && { ...simulate, limits: { lower: truth - error.lower, upper: truth + error.lower } },
  })
  const text = {
    id: 'temperature',
    name: 'error of the temperature',
    unit: 'K',
    sense: 'at most',
    remedies: remedies.temperature,
    catches: ['C01', 'C02', 'C03', 'C04'],
  } as const
  return { budget, margin: errorMargin(text, truth, error.lower, station, budget, rule) }
}
