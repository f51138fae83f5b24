import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { meanCurrentOfCurrent } from '../formulas/index.js'
import { type RailLimit, railLimits, steadyDrop, steadyLimits } from './limits.js'
import { dutyOf, hasRest, restOf, steadyCurrent, steadyRail } from './steady.js'

/** Where the rail of the worst board ends while the load is on, which no capacitor changes. */
export interface SteadySag {
  readonly voltage: number
  /** Mean current of the load while it is on, or over a period of PWM. */
  readonly current: number
  readonly sourceResistance: number
  readonly limit: number
  readonly limitName: string
  /** Whether the sag alone breaks the limit. */
  readonly breaks: boolean
  /** Voltage at rest of the place that the limit is on, with only what is drawn all the time. */
  readonly rest: number
  readonly idle: number
  /** Whether no capacitor can help: the sag breaks the limit and the load stays on, or the source at rest is below it. */
  readonly isImpossible: boolean
  /**
   * Capacitance on the rail, everything lost that is lost, that the burst needs on the worst board with the series resistance that
   * stands there; 0 where none, `null` where none is enough: then that resistance is too large, or the sag stays.
   */
  readonly capacitance: number | null
}

/**
 * The steady sag of a board, of the place whose limit it breaks first.
 *
 * @param capacitanceFor - what a burst needs, told whether the sag alone breaks the limit
 */
export function steadySag(
  read: ReadDecoupling,
  board: Board,
  capacitanceFor: (breaks: boolean) => number | null,
): SteadySag {
  const limits = railLimits(read)
  const room = (limit: RailLimit): number => steadyRail(board) - steadyDrop(read, limit)(board) - limit.volts
  const [endless] = steadyLimits(read).sort((a, b) => room(a) - room(b))
  const restRoom = (one: RailLimit): number => restOf(board) - steadyDrop(read, one)(board) - one.volts
  const dead = limits.filter((one) => restRoom(one) <= 0).sort((a, b) => restRoom(a) - restRoom(b))[0]
  const limit = dead ?? endless ?? limits.find(({ place }) => place === 'rail') ?? limits[0]!
  const { name, volts, place } = limit
  const drop = steadyDrop(read, limit)(board)
  const voltage = steadyRail(board) - drop
  const isHeld = place === 'logic rail' && endless === undefined
  const isDead = dead !== undefined || !hasRest(board)
  const breaks = isDead || (!isHeld && voltage < volts)
  const isImpossible = isDead || (breaks && endless !== undefined)
  return {
    voltage,
    current: meanCurrentOfCurrent({ I_step: steadyCurrent(board), D_m: dutyOf(board) }),
    sourceResistance: board.source.resistance,
    limit: volts,
    limitName: name,
    breaks,
    rest: hasRest(board) ? restOf(board) - drop : 0,
    idle: board.idle,
    isImpossible,
    capacitance: isImpossible ? null : isHeld ? 0 : capacitanceFor(breaks),
  }
}
