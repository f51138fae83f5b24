import type { Margin } from '@ohmward/budget'
import { nominalOf } from '@ohmward/quantity'
import type { RailReading } from '../rail/reading.js'
import { agesOf, temperaturesOf } from './inside.js'
import type { Plan } from './plan.js'
import { dutiesOf, frequenciesOf } from './pulses.js'

type Values = Readonly<Record<string, number>>
type Value = (reading: RailReading) => number

/** As far as a value that was only nearly right may be off, places beside the worst one are followed exactly too. */
const off = 0.003
/** Places inside the spread of the loop's inductance: more of it lasts longer, and lets less current pass. */
const inside = [1 / 8, 1 / 4, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 7 / 8]

/** A board with nominal parts where plugging in is hardest: full, warm, new. */
export const usualOf = ({ read, at }: Plan): RailReading =>
  at({ V_oc: read.openCircuit.to, T_a: read.ambient.to, Y_age: read.age.from })

/**
 * A margin that was searched by a value which is nearly right, with the exact one: at its worst place, and from there on wherever
 * moving one input leads to a worse one. The probability stays that of the search.
 */
export function followed(plan: Plan, margin: Margin, near: Value, exact: Value): Margin {
  const { inputs, conditions, at: readingAt } = plan
  const sign = margin.sense === 'at most' ? 1 : -1
  const { at, worst, turns } = climb(
    plan,
    margin.at,
    (reading) => sign * near(reading),
    (reading) => sign * exact(reading),
  )
  const start = Object.fromEntries(conditions.map((name) => [name, at[name]!]))
  const nominal = exact(readingAt(start))
  const { limit, probability, verdict, reason, ...rest } = margin
  const slack = sign * limit - worst
  const isCertain = probability === (slack < 0 ? 1 : 0)
  const doubt = reason ?? (turns > slack ? 'the result both rises and falls with L' : undefined)
  // Where a probability decided, it still does.
  const isByChance = (verdict === 'fails') !== margin.slack < 0
  const now = slack < 0 ? 'fails' : doubt === undefined ? 'holds' : 'not sure'
  const moved = Object.entries(at).filter(([name, value]) => name in start || value !== nominalOf(inputs[name]!))
  return {
    ...rest,
    ...(probability !== undefined && !isCertain && { probability }),
    limit,
    verdict: isByChance ? verdict : now,
    ...(doubt !== undefined && now === 'not sure' && { reason: doubt }),
    worst: sign * worst,
    nominal,
    slack,
    nominalSlack: sign * (limit - nominal),
    at: Object.fromEntries(moved),
  }
}

/** What a climb needs of a plan, and what it makes of a board: a reading, or whatever the values are of. */
type Slope<R> = Pick<Plan, 'read' | 'inputs'> & { readonly at: (values: Values) => R }

/** A place that is worse than those beside it: no single input leads further. */
interface Summit {
  readonly at: Values
  readonly worst: number
  /** By how much a place inside the spread of the loop's inductance was worse than its ends. */
  readonly turns: number
}

/**
 * Goes from a place to ever larger values, one input at a time: to its ends, age and temperature inside their ranges too, and the
 * inductance of the loop.
 *
 * @param near - nearly the value; tells where the exact one is worth its cost
 */
export function climb<R>(
  { read, inputs, at: readingAt }: Slope<R>,
  start: Values,
  near: (reading: R) => number,
  exact: (reading: R) => number,
): Summit {
  const { L } = inputs
  const places: Readonly<Record<string, readonly number[]>> = {
    L: typeof L === 'object' ? inside.map((share) => L.lower + share * (L.upper - L.lower)) : [],
    T_a: temperaturesOf(read),
    Y_age: agesOf(read),
    f_pwm: frequenciesOf(read),
    D: dutiesOf(read),
  }
  let at = start
  let worst = exact(readingAt(at))
  let here = near(readingAt(at))
  let turns = 0
  for (let round = 0, moves = true; moves && round < 6; round++) {
    moves = false
    for (const [name, input] of Object.entries(inputs)) {
      if (typeof input !== 'object' || input.lower === input.upper) continue
      const { lower, upper } = input
      const between = places[name] ?? []
      for (const value of [lower, ...between, upper]) {
        if (value === (at[name] ?? input.nominal)) continue
        const there = readingAt({ ...at, [name]: value })
        const nearly = near(there)
        const isEnd = value === lower || value === upper
        if (nearly === here || nearly < here - (isEnd ? off : 0) * Math.abs(here)) continue
        const found = exact(there)
        if (found <= worst + 1e-6 * Math.abs(worst)) continue
        if (name === 'L' && !isEnd) turns = found - worst
        worst = found
        here = nearly
        at = { ...at, [name]: value }
        moves = true
      }
    }
  }
  return { at, worst, turns }
}
