import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { currentAtLowest, mostPower, safeCurrent, safePower, tripCurrent } from '../formulas/index.js'
import { restOf, steadyCurrent } from './steady.js'

/** How near a load is let come to what ends it. */
const k_safe = 0.7

/** Largest constant power that is allowed: 30 % below the one that still has a solution. */
export const powerAllowed = (board: Board): number =>
  Math.min(1e12, safePower({ k_safe, P_max: mostPower({ V_rest: restOf(board), R_s: board.source.resistance }) }))

/** Largest current that the protection is let carry. */
export function tripAllowed({ source }: ReadDecoupling, { protection }: Board): number {
  const V_trip = source.path[source.protection]?.tripVoltage?.lower ?? 0
  return safeCurrent({ k_safe, I_trip: tripCurrent({ V_trip, R_prot: protection }) })
}

/**
 * Current through the protection while the load is on: in the end, or over a burst at most, where the capacitors give the rest. It is
 * largest while it doesn't change, so the loop's inductance takes nothing then.
 */
export function tripLoad(read: ReadDecoupling, board: Board, lowest: number): number {
  const { source, idle } = board
  const steady = steadyCurrent(board) + idle
  if (read.load.duration === Number.POSITIVE_INFINITY) return steady
  return Math.min(steady, currentAtLowest({ V_s: source.voltage, V_min: lowest, R_s: source.resistance }))
}
