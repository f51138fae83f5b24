import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { isolationDrop } from '../formulas/index.js'
import {
  branchVoltage,
  type Circuit,
  circuit,
  type DiodePwm,
  effort,
  extremeOf,
  highestAbove,
  type PwmResponse,
  pwmStart,
  type Response,
  respondTo,
  respondToPwm,
} from '../waveform/inside.js'
import { heldUnderPwm, levelHeld } from './diode.js'
import { hasRest } from './steady.js'

/** What the rail does on one board. */
export interface RailAnswer {
  readonly circuit: Circuit
  /** The answer to the step or burst; to the first on-time where there is PWM. */
  readonly step: Response
  /** The steady state under PWM; `null` where there is none, undefined without PWM. */
  readonly pwm: PwmResponse | null | undefined
  /** What a diode under PWM does: current of its pulses, lowest voltage behind it. */
  readonly diode: DiodePwm | null | undefined
  /** The steady state with what is drawn behind a diode drawn evenly. */
  readonly even: PwmResponse | null | undefined
  /** Lowest rail voltage; 0 where the load has no solution. */
  readonly lowest: number
  /** Lowest voltage of the logic rail; that of the rail where there is none. */
  readonly logic: number
}

/** The circuit of a board: behind a resistor the logic rail is one more branch, its current drawn at the rail. */
export function circuitOf(read: ReadDecoupling, board: Board): Circuit {
  const { source, branches, idle, logic, load } = board
  const isIsolated = read.logicRail?.behind === 'resistor'
  const more = { capacitance: logic.capacitance, resistance: logic.resistance, inductance: 0 }
  return circuit(source, isIsolated ? [...branches, more] : branches, idle, load.kind === 'power')
}

/** Follows the rail of a board through its step, burst or PWM. */
export function railOf(read: ReadDecoupling, board: Board, c: Circuit = circuitOf(read, board)): RailAnswer {
  effort.spend(100 + 40 * c.branches.length ** 2)
  const { rise, fall, duration } = read.load
  const on = board.pwm ? board.pwm.duty / board.pwm.frequency : duration
  const step = respondTo(c, board.load, { rise, fall, duration: on })
  const steady = steadyPwm(read, board, c)
  const { pwm } = steady
  const lowest =
    pwm === null || step.collapse !== null || !hasRest(board)
      ? 0
      : Math.min(step.lowest.value, pwm?.lowest.value ?? Number.POSITIVE_INFINITY)
  const answer = { circuit: c, step, ...steady, lowest }
  return { ...answer, logic: Math.max(0, logicOf(read, board, answer)) }
}

/** The steady state of a board under PWM alone, with what a diode's pulses do to it. */
export function steadyPwm(read: ReadDecoupling, board: Board, c: Circuit): Pick<RailAnswer, 'pwm' | 'diode' | 'even'> {
  const even = evenPwm(board, c)
  const diode = even && read.logicRail?.behind === 'diode' ? heldUnderPwm(board, even) : undefined
  return { even, diode, pwm: diode ? diode.rail : even }
}

/** The same with what is drawn behind a diode drawn evenly. */
export const evenPwm = ({ pwm, load }: Board, c: Circuit): PwmResponse | null | undefined =>
  pwm && respondToPwm(c, load, pwm)

function logicOf(
  read: ReadDecoupling,
  board: Board,
  { circuit: c, step, pwm, diode, lowest }: Omit<RailAnswer, 'logic'>,
): number {
  const { logicRail, load } = read
  const { logic, forwardVoltage } = board
  if (logicRail === undefined) return lowest
  if (logicRail.behind === 'diode') {
    if (load.pwm) return lowest === 0 || !diode ? 0 : diode.level
    // The diode blocks while the rail is down: the capacitor alone, or what the lowest rail still gives through the diode.
    const { level } = levelHeld(c, step, load.duration + load.fall, logic.peak / logic.capacitance)
    return Math.max(lowest, level) - forwardVoltage
  }
  if (lowest === 0) return 0
  const place = c.group[c.group.length - 1]!
  const pieces = pwm ? [...step.pieces, ...pwm.pieces] : step.pieces
  return (
    extremeOf(pieces, 1, (piece) => branchVoltage(piece, place))!.value -
    isolationDrop({ I_top: logic.peak, R_iso: logic.resistance })
  )
}

/** Lowest rail voltage from the first period of PWM on; without a steady state, or without PWM, that of the step. */
export function lowestFromStart({ load }: Board, { circuit: c, even, lowest }: RailAnswer): number {
  return even ? Math.min(lowest, pwmStart(c, load, even).lowest) : lowest
}

/** Highest rail voltage at rest, and when the load is released. */
export function highestOfRail({ step, pwm }: RailAnswer): number {
  const { rest } = step
  return Math.max(highestAbove(step, rest)?.value ?? rest, pwm?.highest.value ?? 0)
}
