import {
  type Assessment,
  assess,
  type Budget,
  blockOf,
  type ChangeOptions,
  type Changes,
  type CheckOptions,
  changesOf,
  derive,
  type SweepPoint,
  sweep,
} from '@ohmward/budget'
import { nominalOf } from '@ohmward/quantity'
import { type Plan, planOf } from './chain/plan.js'
import { remediesOf } from './changes/index.js'
import type { HallChoice, HallConditions } from './choice.js'
import { type ReadChoice, readChoice } from './read-choice.js'
import { rowsOf } from './rows/index.js'
import { assumptionsOf, cautionsOf, summaryOf } from './texts.js'
import { type TripAssessment, tripBudget, tripInterval, tripLevel } from './trip.js'

/** Budgets of a check: `I_1`, `I_2` and so on for the errors wanted, in their order, and `I_trip`. */
export type HallBudgets = Readonly<Record<string, Budget>>

/** What a check of a current measurement answers. */
export interface HallAssessment extends Assessment<HallBudgets> {
  /** Where the trip acts; absent without one. */
  readonly trip?: TripAssessment
}

/** A choice that was read, and what of it only the texts need. */
interface Read extends ReadChoice {
  readonly given: HallChoice
}

/** The current measurement as a block. */
export const hall = /*#__PURE__*/ blockOf<HallChoice, HallConditions, Read, HallAssessment>({
  name: 'hall',
  read: (choice, conditions) => ({ ...readChoice(choice, conditions), given: choice }),
  at: (read, { rail, ambientCelsius }) => ({
    ...read,
    ...(rail !== undefined && { rail: { from: rail, to: rail } }),
    ...(ambientCelsius !== undefined && { ambient: { from: ambientCelsius, to: ambientCelsius } }),
  }),
  setup: (read) => {
    const plan = planOf(read)
    const trip = tripLevel(read, plan)
    return {
      rows: rowsOf(read, plan, trip),
      cautions: () => cautionsOf(read, plan.behind),
      report: (held) => ({
        summary: summaryOf(held, read),
        ...nominalReading(read, plan),
        budgets: { ...held.budgets, ...(trip && { I_trip: tripBudget(trip, plan, held) }) },
        assumptions: assumptionsOf(read, plan.behind, read.given, Object.values(held.budgets)),
        ...(trip && { trip: tripInterval(trip, held) }),
      }),
    }
  },
})

/** Every value with nominal parts at the middle of the conditions, at the last of the wanted currents, and how each came about. */
function nominalReading({ errors }: ReadChoice, plan: Plan) {
  const given = Object.entries({ ...plan.inputs, ...plan.at(errors.at(-1)!.at) })
  const inputs = Object.fromEntries(given.map(([symbol, input]) => [symbol, nominalOf(input)]))
  const columns = Object.fromEntries(Object.entries(inputs).map(([symbol, value]) => [symbol, Float64Array.of(value)]))
  const reading = plan.reading(plan.row(columns, 0))
  // The place has room for the symbols of every topology: what this one doesn't have is no value.
  const all = Object.entries({ ...reading, ...plan.zeroed(reading) })
  const values = Object.fromEntries(all.filter(([, value]) => !Number.isNaN(value)))
  return { values, derivation: derive(plan.formulas(), inputs, values) }
}

/**
 * Checks a current measurement against its limits, over the rail and the temperature.
 *
 * @param choice - sensor, converter, currents and wanted errors
 * @param conditions - the rail while measuring, and the air around the board
 * @returns verdict, margins (least relative slack first), error budgets, derivation, trip, cautions, assumptions
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export const checkHall = (choice: HallChoice, conditions: HallConditions, options?: CheckOptions): HallAssessment =>
  assess(hall, choice, conditions, options)

/** Conditions of which a sweep takes single values. */
const swept = ['rail', 'ambientCelsius']

/**
 * Every row at single values of `rail` and `ambientCelsius`, each at its worst case over the parts.
 *
 * @param points - `[{ rail: 3.0 }, { rail: 3.1 }]`
 * @param ids - the rows that are asked for; all by default
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export const sweepHall = (
  choice: HallChoice,
  conditions: HallConditions,
  points: readonly { readonly rail?: number; readonly ambientCelsius?: number }[],
  ids?: readonly string[],
): SweepPoint[] => sweep(hall, choice, conditions, points, ids, swept)

/**
 * What can be done about a measurement that doesn't hold: each change tried as printed, the best first.
 *
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export const hallChanges = (choice: HallChoice, conditions: HallConditions, options?: ChangeOptions): Changes =>
  changesOf(hall, remediesOf(readChoice(choice, conditions)), choice, conditions, options)
