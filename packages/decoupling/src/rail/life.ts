import type { Board } from '../chain/board.js'
import type { ReadCapacitor } from '../choice/choice.js'
import { belowRated, life, resistanceOfOne, rippleOfOne, selfHeating } from '../formulas/index.js'
import type { RailReading } from './reading.js'

/** Ripple current of all parts of each kind, by the kind's place. */
export type Ripple = (reading: RailReading) => readonly number[]

/** Ripple current of one part of kind k; 0 without PWM. */
export const rippleOf = (part: ReadCapacitor, ripple: readonly number[], k: number): number =>
  rippleOfOne({ I_kind: ripple[k] ?? 0, n_C: part.count })

/** Temperature rise of one part of kind k by its ripple current. */
export const heatingOf = (
  { count }: ReadCapacitor,
  board: Board,
  k: number,
  x: { R_thC: number; I_C: number },
): number => selfHeating({ ...x, ESR_one: resistanceOfOne({ ESR: board.branches[k]!.resistance, n_C: count }) })

/** Expected life of a part of kind k in hours, heated by its ripple; a million hours at most, beyond which nothing is known. */
export function lifeOf(part: ReadCapacitor, { board }: RailReading, ripple: readonly number[], k: number): number {
  const { thermalResistance, lifeHours, lifeCelsius } = part.fields
  const dT_C = heatingOf(part, board, k, { R_thC: thermalResistance.upper, I_C: rippleOf(part, ripple, k) })
  const dT_rated = belowRated({ T_rated: lifeCelsius.lower, T_a: board.ambientCelsius })
  return Math.min(1e6, life({ t_rated: lifeHours.lower, dT_rated, dT_C, dT_half: 10 }))
}
