import {
  type Assessment,
  type Budget,
  type DecisionRule,
  derive,
  type Margin,
  ordered,
  readRule,
  tightestText,
  verdictOf,
} from '@ohmward/budget'
import { format, type Input } from '@ohmward/quantity'
import { assumptionsOf, cautionsOf } from './cautions.js'
import { type HallChoice, type HallConditions, type ReadChoice, readChoice } from './choice.js'
import { currentError, type Simulate } from './error-margins.js'
import { measurementMargins } from './margins.js'
import { type Plan, planOf } from './plan.js'
import { type TripAssessment, tripOf } from './trip.js'

/** How a check is made. */
export interface CheckOptions extends DecisionRule {
  /** `false` leaves the simulation out, for speed; or how to simulate. */
  readonly simulation?: Simulate
}

/** Budgets of a check: `I_1`, `I_2` and so on for the errors wanted, in their order, and `I_trip`. */
export type HallBudgets = Readonly<Record<string, Budget>>

/** What a check of a current measurement answers. */
export interface HallAssessment extends Assessment<HallBudgets> {
  /** Where the trip acts; absent without one. */
  readonly trip?: Omit<TripAssessment, 'margins' | 'budget'>
}

/**
 * Holds a current measurement against its limits, over the rail and the temperature.
 *
 * @param choice - sensor, converter, currents and wanted errors
 * @param conditions - the rail while measuring, and the air around the board
 * @returns verdict, margins (least relative slack first), error budgets, derivation, trip, cautions, assumptions
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export function checkHall(
  choice: HallChoice,
  conditions: HallConditions,
  { simulation = {}, accept }: CheckOptions = {},
): HallAssessment {
  const rule = readRule(accept)
  const read = readChoice(choice, conditions)
  const plan = planOf(read)
  const judged = read.errors.map((wanted, i) => currentError(plan, wanted, i, rule, simulation))
  const tripped = tripOf(read, plan, rule)
  const margins = ordered([
    ...judged.map(({ margin }) => margin),
    ...measurementMargins(read, plan, rule),
    ...(tripped?.margins ?? []),
  ])
  const budgets: Record<string, Budget> = {}
  judged.forEach(({ budget }, i) => {
    budgets[`I_${i + 1}`] = budget
  })
  if (tripped) budgets['I_trip'] = tripped.budget
  const { values, derivation } = nominalReading(read, plan)
  return {
    block: 'hall',
    verdict: verdictOf(margins),
    summary: summaryOf(margins, judged.at(-1)!.budget, read.errors.at(-1)!.at),
    values,
    derivation,
    budgets,
    margins,
    cautions: cautionsOf(read, plan.behind),
    assumptions: assumptionsOf(read, choice as unknown as Record<string, unknown>),
    ...(tripped && { trip: plainTrip(tripped) }),
  }
}

const plainTrip = ({ code, countsOverZero, level, interval }: TripAssessment) => ({
  code,
  countsOverZero,
  level,
  interval,
})

/** Every value with nominal parts at the middle of the conditions, at the last of the wanted currents. */
export function nominalReading({ errors }: ReadChoice, plan: Plan) {
  const columns: Record<string, Float64Array> = {}
  const inputs: Record<string, number> = {}
  for (const [symbol, input] of Object.entries(plan.inputs(errors.at(-1)!.at))) {
    const value = nominalOf(input)
    inputs[symbol] = value
    columns[symbol] = Float64Array.of(value)
  }
  const place = plan.reading(plan.row(columns, 0))
  const values = { V_rail: inputs['V_rail']!, ...place }
  return { values, derivation: derive(plan.formulas(), { ...inputs, dT: inputs['T_d']!, ...values }, place) }
}

const nominalOf = (input: Input) => (typeof input === 'number' ? input : (input as { nominal: number }).nominal)

/** The answer in a sentence or two. */
function summaryOf(margins: readonly Margin[], { linear, extremes }: Budget, truth: number): string {
  const reach = (lower: number, upper: number) => Math.max(upper - truth, truth - lower)
  // What is off on every board, as by a clipped or unsettled output, counts with the spread about it.
  const { slack, unit } = margins[0]!
  const words = { holds: 'Holds', fails: 'Fails', 'not sure': 'Not sure' }
  const overall = words[verdictOf(margins)]
  const ampere = (value: number) => format(value, 'A', { digits: 2 })
  const most = reach(extremes.lower, extremes.upper)
  const expected = Math.min(reach(...linear.interval), most)
  const spare = format(Math.abs(slack), unit, { digits: 2 })
  const least = tightestText(margins[0]!, spare)
  const worth = `±${ampere(expected)} (${Math.round(100 * linear.level)} %), at worst ±${ampere(most)}`
  return `${overall}: ${least}. At ${format(truth, 'A')} expect ${worth}.`
}
