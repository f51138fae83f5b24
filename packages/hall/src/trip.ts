import { type Budget, budgetOf, type HeldRows, type InputSet } from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'
import { rippleOf } from './chain/inputs.js'
import type { Place, Plan } from './chain/plan.js'
import { slowestOf } from './chain/source.js'
import * as f from './formulas/index.js'
import type { ReadChoice } from './read-choice.js'

/** An over-current trip as it will act. */
export interface TripAssessment {
  /** Code from which the firmware trips, with the nominal zero; a calibrated zero moves it with the zero code. */
  readonly code: number
  /** The same over the nominal zero code, for firmware that compares with its own zero. */
  readonly countsOverZero: number
  /** Current of the reading at that code, in amperes. */
  readonly level: number
  /** Real currents between which the trip acts, over all limits and conditions, in amperes. */
  readonly interval: readonly [lower: number, upper: number]
}

/** The level of a trip, and where it is sought. */
export interface TripLevel extends Omit<TripAssessment, 'interval'> {
  /** Inputs at the largest normal current, where the crest of a mean trips first; and at the smallest duty, where its trough trips last. */
  readonly usual: InputSet
  readonly late: InputSet
  /** The real current at which the trip acts. */
  readonly acts: (x: Place) => number
}

/**
 * The code of a trip and its level. A single code is compared exactly: its transition has no rounding of its own; a mean
 * of samples keeps what noise doesn't dither away.
 *
 * @throws InputError where the code is no more than that at zero current
 */
export function tripLevel(choice: ReadChoice, plan: Plan): TripLevel | undefined {
  const { trip, converter, timing } = choice
  if (!trip) return undefined
  const { h_code } = converter
  const { A_count, code_zero } = plan.behind
  // The first code that trips; its step begins half a count below the middle that the firmware takes a code for.
  const code = trip.code ?? Math.round(f.tripCode({ I_set: trip.current ?? 0, A_count, code_zero }) - h_code + 0.5)
  const level = f.indicatedCurrent({ code_out: code + h_code - 0.5, code_zero, A_count })
  if (!(level > 0)) {
    const allowed = `more than the code at zero current, ${Math.floor(code_zero)}`
    throw new InputError({ field: 'trip.code', value: code, unit: 'LSB', allowed })
  }
  const exact: InputSet = timing.samples.nominal === 1 ? { e_q: 0 } : {}
  const settling = settlingAtLeast(choice, plan)
  const rippled = (mean: number): InputSet => {
    const { D_x, w_x } = rippleOf(choice, plan.behind, mean)
    // What hardly averages falls to nothing in its trough: a thousandth of the mean is left, so that the answer is finite.
    const lower = Math.max(w_x.lower, -0.999 * D_x)
    return { ...exact, ...settling, I_x: level, D_x, w_x: { ...w_x, lower } }
  }
  return {
    code,
    countsOverZero: code - Math.round(code_zero - h_code),
    level,
    usual: rippled(trip.normal),
    late: rippled(0),
    acts: (x) => plan.tripAt(level, x),
  }
}

/** Time from the step to the sample; where there is none, a little of it, so that the current in which it acts has an end. */
function settlingAtLeast(choice: ReadChoice, { inputs }: Plan): InputSet {
  const { t_set } = inputs
  if (typeof t_set !== 'object') return {}
  const { tau_s, tau_f } = slowestOf(choice)
  const least = 0.05 * (tau_s + tau_f)
  const [lower, nominal, upper] = [t_set.lower, t_set.nominal, t_set.upper].map((time) => Math.max(time, least))
  return { t_set: { ...t_set, lower: lower!, nominal: nominal!, upper: upper! } }
}

/** Between which real currents a trip acts, as its margins found it. */
export function tripInterval({ code, countsOverZero, level }: TripLevel, held: HeldRows): TripAssessment {
  const worst = (id: string) => held.margin(id)!.worst
  return { code, countsOverZero, level, interval: [worst('trip-false'), worst('trip-late')] }
}

/** The budget of the current in which a trip acts, at the conditions at which it acts last. */
export function tripBudget({ usual, acts }: TripLevel, plan: Plan, held: HeldRows): Budget {
  const { at } = held.margin('trip-late')!
  const moment = plan.conditions.filter((name) => at[name] !== undefined).map((name) => [name, at[name]!])
  return budgetOf({
    symbol: 'I_trip',
    quantity: 'current at which the trip acts',
    unit: 'A',
    inputs: { ...plan.inputs, ...usual, ...Object.fromEntries(moment) },
    model: acts,
    row: plan.row,
    groups: plan.groups,
    simulation: false,
  })
}
