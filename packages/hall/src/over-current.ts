import { furthestStation, propagate } from '@ohmward/budget'
import { InputError, readNumber } from '@ohmward/quantity'
import { planOf } from './chain/plan.js'
import { conductorRise } from './chain/source.js'
import type { HallChoice, HallConditions } from './choice.js'
import { readChoice } from './read-choice.js'

/** What a reading is worth at one current and one temperature, over the parts' limits and the rail. */
export interface CurrentPoint {
  readonly current: number
  /** Air around the board. */
  readonly celsius: number
  /** Largest error in amperes, over all limits. */
  readonly worstError: number
  /** Expanded uncertainty in amperes, at the rail where the error can be largest. */
  readonly expanded: number
}

/**
 * The error over the current, in the coldest air with a cold sensor, and in the hottest with the sensor heated by the
 * largest current.
 *
 * @param currents - amperes; eleven from the smallest to the largest by default
 * @throws InputError naming the first field that isn't allowed
 */
export function hallOverCurrent(
  choice: HallChoice,
  conditions: HallConditions,
  currents?: readonly (number | string)[],
): readonly CurrentPoint[] {
  if (currents !== undefined && !Array.isArray(currents)) {
    throw new InputError({ field: 'currents', value: currents, unit: 'A', allowed: 'a list of currents' })
  }
  const read = readChoice(choice, conditions)
  const { from, to } = read.current
  const plan = planOf(read)
  const { row, groups } = plan
  const others = plan.conditions.filter((name) => name !== 'T_d')
  const wanted =
    currents?.map((one, i) => readNumber(one, { field: `currents[${i}]`, unit: 'A', min: -1e4, max: 1e4 })) ??
    Array.from({ length: 11 }, (_, i) => from + ((to - from) * i) / 10)
  const ends = [
    [read.ambient.from, 0],
    [read.ambient.to, conductorRise(read, 'upper')],
  ] as const
  return ends.flatMap(([celsius, rise]) =>
    wanted.map((current): CurrentPoint => {
      const inputs = { ...plan.inputs, ...plan.at(current), T_d: celsius - 25 + rise }
      const station = furthestStation({ inputs, row, conditions: others }, plan.result, current)
      const { lower, upper } = station.extremes
      const { expanded } = propagate(station.inputs, plan.result, { row, groups })
      return { current, celsius, worstError: Math.max(upper - current, current - lower), expanded }
    }),
  )
}
