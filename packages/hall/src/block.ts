import { type Assessment, type Budget, type DecisionRule, derive, ordered, readRule, verdictOf } from '@ohmward/budget'
import { nominalOf } from './chain/inputs.js'
import { type Plan, planOf } from './chain/plan.js'
import { type HallChoice, type HallConditions, type ReadChoice, readChoice } from './choice/index.js'
import { currentError, type Simulate } from './rows/error.js'
import { measurementMargins } from './rows/index.js'
import { type TripAssessment, tripOf } from './rows/trip.js'
import { assumptionsOf, cautionsOf, summaryOf } from './texts.js'

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
  const reading = plan.reading(plan.row(columns, 0))
  const values = { ...reading, ...plan.zeroed(reading) }
  return { values, derivation: derive(plan.formulas(), inputs, values) }
}
