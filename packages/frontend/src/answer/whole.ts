import { once } from '../kept/once.js'
import { toCutOff } from '../rows/supply-rows.js'
import type { Walk } from '../walk/walk.js'
import { type MonitorAnswer, monitorOf } from './monitor.js'
import { type PowerAnswer, powerOf } from './power/power.js'
import { type Standby, standbyOf } from './standby.js'

/** What is answered of the design as a whole, at no single place. */
export interface WholeAnswers {
  readonly power: PowerAnswer
  readonly monitor: MonitorAnswer | null
  readonly standby: Standby | null
  /** Share of a full charge that is surely used before the cut-off or the firmware's stop. */
  readonly surelyUsed: number
}

/**
 * Power, monitor and drawer, each when it is first asked for: bursts end where the monitor stops them, and the drawer begins to count
 * there.
 */
export function answersOf(walk: Walk): WholeAnswers {
  const { design } = walk
  const monitor = once(() => monitorOf(walk))
  const surelyUsed = once(() => Math.min(toCutOff(design), monitor()?.beforeStopSlow ?? monitor()?.beforeStop ?? 1))
  const power = once(() => powerOf(walk, surelyUsed()))
  const standby = once(() => standbyOf(design, monitor()))
  return {
    get power() {
      return power()
    },
    get monitor() {
      return monitor()
    },
    get standby() {
      return standby()
    },
    get surelyUsed() {
      return surelyUsed()
    },
  }
}
