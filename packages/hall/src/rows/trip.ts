import { type Budget, budgetOf, type DecisionRule, type Margin, marginOf } from '@ohmward/budget'
import { type Input, InputError } from '@ohmward/quantity'
import { rippleOf } from '../chain/inputs.js'
import type { Place, Plan } from '../chain/plan.js'
import type { ReadChoice } from '../choice/index.js'
import * as f from '../formulas/index.js'
import { whileOn } from './circumstances.js'
import { remedies } from './remedies.js'
import { text } from './text.js'

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
  readonly budget: Budget
  readonly margins: readonly Margin[]
}

/**
 * Where a trip really acts. A single code is compared exactly: its transition has no rounding of its own; a mean of
 * samples keeps what noise doesn't dither away. A mean ripples: its crest trips first, at the duty of the largest normal
 * current, and its trough last, at the smallest duty.
 */
export function tripOf(choice: ReadChoice, plan: Plan, rule: DecisionRule): TripAssessment | undefined {
  const { trip, converter, timing } = choice
  if (!trip) return undefined
  const { bits: N_bits, h_code } = converter
  const A_count = f.countCurrent({ ...plan.behind.nominal, N_bits })
  const code_zero = f.zeroCode({ ...plan.behind.nominal, N_bits })
  // The first code that trips; its step begins half a count below the middle that the firmware takes a code for.
  const code =
    'code' in trip.level
      ? trip.level.code
      : Math.round(f.tripCode({ I_set: trip.level.current, A_count, code_zero }) - h_code + 0.5)
  const level = f.indicatedCurrent({ code_out: code + h_code - 0.5, code_zero, A_count })
  if (!(level > 0)) {
    const allowed = `more than the code at zero current, ${Math.floor(code_zero)}`
    throw new InputError({ field: 'trip.code', value: code, unit: 'LSB', allowed })
  }
  const single = timing.samples.nominal === 1
  const { inputs, row, conditions, groups } = whileOn(plan, level, rule)
  const here = { inputs: single ? { ...inputs, e_q: 0 } : inputs, row, conditions, groups }
  const acts = (x: Place) => plan.tripAt(level, x)
  const rippled = (mean: number) => {
    const { D_x, w_x } = rippleOf(choice, plan.behind, mean)
    // What hardly averages falls to nothing in its trough: a thousandth of the mean is left, so that the answer is finite.
    const lower = Math.max(w_x.lower, -0.999 * D_x)
    return { ...here, inputs: { ...here.inputs, D_x, w_x: { ...w_x, lower } } }
  }
  const usual = rippled(trip.normal)
  const [never, late] = [
    marginOf(
      {
        ...text('trip-false', 'trip above the largest normal current', 'A', 'at least', ['K11'], remedies.falseTrip),
        value: acts,
        limit: trip.normal,
      },
      { ...usual, ...rule },
    ),
    marginOf(
      {
        ...text('trip-late', 'trip below what is withstood', 'A', 'at most', ['K11'], remedies.tripLate),
        value: acts,
        limit: trip.withstand,
      },
      { ...rippled(0), ...rule },
    ),
  ] as const
  const budget = budgetOf({
    symbol: 'I_trip',
    quantity: 'current in which the trip acts',
    unit: 'A',
    inputs: { ...usual.inputs, ...conditionsOf(late, conditions) },
    model: acts,
    row,
    groups: plan.groups,
    simulation: false,
  })
  return {
    code,
    countsOverZero: code - Math.round(code_zero - h_code),
    level,
    interval: [never.worst, late.worst],
    budget,
    margins: [never, late, reachMargin(choice, plan, level, rule)],
  }
}

/** The conditions at which a margin is worst. */
const conditionsOf = ({ at }: Margin, names: readonly string[]) =>
  Object.fromEntries(names.filter((name) => at[name] !== undefined).map((name) => [name, at[name]!]))

/** Whether the reading gets as far as the level before sensor or converter saturate. */
function reachMargin({ trip, current }: ReadChoice, plan: Plan, level: number, rule: DecisionRule): Margin {
  const beyond = 10 * Math.max(trip!.withstand, Math.abs(current.to), Math.abs(level))
  const { inputs, ...rest } = whileOn(plan, beyond, rule)
  return marginOf(
    {
      ...text('trip-reach', 'reading at which everything saturates', 'A', 'at least', ['K11'], remedies.tripReach),
      value: plan.result,
      limit: level,
    },
    { inputs: inputs as Record<string, Input>, ...rest },
  )
}
