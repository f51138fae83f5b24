import { furthestStation, marginOf, propagate } from '@ohmward/budget'
import { type Input, readNumber } from '@ohmward/quantity'
import { planOf } from './chain/plan.js'
import { type DividerChoice, type DividerConditions, readChoice } from './choice.js'
import { allowedAt } from './rows/allowed.js'

/** What a reading is worth at one rail voltage, over the parts' limits and the temperature. */
export interface RailPoint {
  readonly rail: number
  /** Least room below the highest output at the largest load, in volts; negative where it saturates. */
  readonly headroom: number
  /** Largest error at the nominal load, in ohms, over all limits. */
  readonly worstError: number
  /** Expanded uncertainty at the nominal load, in ohms, at the temperature where the error can be largest. */
  readonly expanded: number
}

/** A measurement over the discharge. */
export interface Discharge {
  readonly points: readonly RailPoint[]
  /** Highest rail at which the output may already saturate at the largest load; `null` where it doesn't within the range. */
  readonly saturatesBelow: number | null
  /** Error allowed at the nominal load, in ohms; where none is held there, by what is held at the largest or the smallest. */
  readonly allowed: number
}

/**
 * Follows a measurement over the discharge: room and error at rail voltages evenly spread over the conditions' range.
 *
 * @param points - how many, 2 to 200
 * @throws InputError naming the first field that isn't allowed
 */
export function dividerOverRail(choice: DividerChoice, conditions: DividerConditions, points = 25): Discharge {
  const count = readNumber(points, { field: 'points', unit: '1', min: 2, max: 200, integer: true })
  const read = readChoice(choice, conditions)
  const { rail, load } = read
  const R_x = load.nominal
  const plan = planOf(read)
  const { row } = plan
  const others = plan.conditions.filter((name) => name !== 'V_rail')
  const text = { id: 'headroom', name: '', unit: 'V', sense: 'at most', remedies: [], catches: [] } as const
  const at = (V_rail: number, R: number) => ({
    inputs: { ...plan.inputs, R_x: R, V_rail } as Record<string, Input>,
    row,
    conditions: others,
  })
  const headroom = (V_rail: number) =>
    marginOf({ ...text, value: (x) => plan.reading(x)['V_want']!, limit: (x) => x['V_hi']! }, at(V_rail, load.to)).slack
  const point = (V_rail: number): RailPoint => {
    const { inputs, extremes } = furthestStation(at(V_rail, R_x), plan.result, R_x)
    const { expanded } = propagate(inputs, plan.result, { row })
    return {
      rail: V_rail,
      headroom: headroom(V_rail),
      worstError: Math.max(extremes.upper - R_x, R_x - extremes.lower),
      expanded,
    }
  }
  const rails = Array.from({ length: count }, (_, i) => rail.from + ((rail.to - rail.from) * i) / (count - 1))
  return {
    points: rails.map(point),
    saturatesBelow: crossing(headroom, rail.from, rail.to),
    allowed: allowedAt(read, 'nominal'),
  }
}

/** The rail at which a rising room passes zero; `to` where it never does, `null` where it always holds. */
function crossing(room: (rail: number) => number, from: number, to: number): number | null {
  if (room(from) >= 0) return null
  let [low, high] = [from, to]
  while (high - low > 1e-4) {
    const middle = (low + high) / 2
    if (room(middle) < 0) low = middle
    else high = middle
  }
  return high
}
