import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import {
  endCurrentOfPower,
  endVoltageOfPower,
  meanCurrentOfCurrent,
  meanCurrentOfResistor,
  meanDuty,
  meanVoltageAtLimit,
  meanVoltageOfCurrent,
  meanVoltageOfResistor,
  restVoltage,
  shortCurrent,
} from '../formulas/index.js'

/** Rail voltage with only what is drawn all the time. */
export const restOf = ({ source, idle }: Board): number =>
  restVoltage({ V_s: source.voltage, R_s: source.resistance, I_q: idle })

/** What a limited source has left for the load; no end to it without a limit. */
const spareOf = ({ source, idle }: Board): number =>
  source.currentLimit === undefined ? Number.POSITIVE_INFINITY : source.currentLimit - idle

/** Whether the source carries what is drawn all the time. */
export const hasRest = (board: Board): boolean => restOf(board) > 0 && spareOf(board) >= 0

/** Share of the time that the load counts for: 1 without PWM, else the duty with half of the edges. */
export const dutyOf = ({ pwm }: Board): number =>
  pwm ? meanDuty({ D: pwm.duty, t_r: pwm.rise, t_f: pwm.fall, T_pwm: 1 / pwm.frequency }) : 1

/** Rail voltage in the end while the load stays on, capacitors as large as one likes; 0 where there is none. */
export function steadyRail(board: Board): number {
  const { source, load, idle } = board
  const V_rest = restOf(board)
  const R_s = source.resistance
  const spare = spareOf(board)
  if (load.kind === 'power') {
    // Where no voltage solves it there is none above 0.
    const v = endVoltageOfPower({ V_rest, R_s, P_L: load.power })
    return v > 0 && load.power / v <= spare ? v : 0
  }
  const D_m = dutyOf(board)
  if (load.kind === 'current') {
    const I_step = load.current
    return meanCurrentOfCurrent({ I_step, D_m }) > spare
      ? 0
      : Math.max(0, meanVoltageOfCurrent({ V_rest, R_s, I_step, D_m }))
  }
  const R_L = load.resistance
  const free = meanVoltageOfResistor({ V_rest, R_s, R_L, D_m })
  if (source.currentLimit === undefined) return Math.max(0, free)
  return Math.max(0, Math.min(free, meanVoltageAtLimit({ I_lim: source.currentLimit, I_q: idle, R_L, D_m })))
}

/** Current of the load in the end, while it is on. */
export function steadyCurrent(board: Board): number {
  const { load, source } = board
  if (load.kind === 'current') return load.current
  const v = steadyRail(board)
  if (load.kind === 'resistor') return v / load.resistance
  return v > 0 ? load.power / v : shortCurrent({ V_s: source.voltage, R_s: source.resistance })
}

/** Mean current that a port without a limit would give; of a burst, which comes out of the capacitors, only what is drawn around it. */
export function portCurrent(read: ReadDecoupling, board: Board): number {
  const { source, idle, load } = board
  if (read.load.duration < Number.POSITIVE_INFINITY) return idle
  const V_rest = restOf(board)
  const x = { V_rest: Math.max(0, V_rest), R_s: source.resistance, D_m: dutyOf(board) }
  if (load.kind === 'current') return idle + meanCurrentOfCurrent({ ...x, I_step: load.current })
  if (load.kind === 'resistor') return idle + meanCurrentOfResistor({ ...x, R_L: load.resistance })
  const drawn = endCurrentOfPower({ ...x, V_rest, P_L: load.power })
  return idle + (drawn > 0 ? drawn : shortCurrent({ ...x, V_s: source.voltage }))
}
