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
  type Timing,
} from '../waveform/inside.js'
import { heldUnderPwm, levelHeld } from './diode.js'
import { type Period, periodOf } from './period.js'
import { hasRest, steadyCurrent, steadyRail } from './steady.js'
import { type Step, stepOf } from './step.js'

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
  const step = respondTo(c, board.load, timingOf(read, board))
  const steady = steadyPwm(read, board, c)
  const { pwm } = steady
  const lowest = lowestOf(board, step, pwm && { lowest: pwm.lowest.value })
  const answer = { circuit: c, step, ...steady, lowest }
  return { ...answer, logic: Math.max(0, logicOf(read, board, answer)) }
}

/** When the load of a board is switched: for the first on-time where there is PWM. */
function timingOf({ load: { rise, fall, duration } }: ReadDecoupling, { pwm }: Board): Timing {
  return { rise, fall, duration: pwm ? pwm.duty / pwm.frequency : duration }
}

/** Lowest rail voltage of a step and of steady PWM: that is `null` where there is none, undefined without PWM. */
const lowestOf = (
  board: Board,
  { collapse, lowest }: Pick<Step, 'collapse' | 'lowest'>,
  steady: Pick<Period, 'lowest'> | null | undefined,
): number =>
  steady === null || collapse !== null || !hasRest(board)
    ? 0
    : Math.min(lowest.value, steady?.lowest ?? Number.POSITIVE_INFINITY)

/** Voltages of a board that margins ask for. */
export interface RailVoltages {
  readonly lowest: number
  readonly logic: number
  readonly highest: number
}

/** The same in numbers, those that were worked out lately taken as they are. */
export function voltagesOf(read: ReadDecoupling, board: Board, c: Circuit): RailVoltages {
  if (read.logicRail !== undefined) {
    const answer = railOf(read, board, c)
    return { ...answer, highest: highestOfRail(answer) }
  }
  effort.spend(100 + 40 * c.branches.length ** 2)
  const step = stepOf(c, board.load, timingOf(read, board))
  const period = periodOf(board, c)
  const lowest = lowestOf(board, step, period)
  return { lowest, logic: Math.max(0, lowest), highest: Math.max(step.highest, period?.highest ?? 0) }
}

/** The steady state of a board under PWM alone, with what a diode's pulses do to it. */
export function steadyPwm(read: ReadDecoupling, board: Board, c: Circuit): Pick<RailAnswer, 'pwm' | 'diode' | 'even'> {
  const even = evenPwm(board, c)
  const diode = even && read.logicRail?.behind === 'diode' ? heldUnderPwm(board, even) : undefined
  return { even, diode, pwm: diode ? diode.rail : even }
}

/** The same with what is drawn behind a diode drawn evenly. */
const evenPwm = ({ pwm, load }: Board, c: Circuit): PwmResponse | null | undefined => pwm && respondToPwm(c, load, pwm)

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

/** Lowest rail voltage from the first period of PWM on; undefined without a steady state. */
export function lowestFromStart(read: ReadDecoupling, board: Board, c: Circuit, lowest: number): number | undefined {
  const { load, pwm } = board
  if (pwm === undefined || (read.logicRail !== undefined && !steadyPwm(read, board, c).pwm)) return undefined
  const period = periodOf(board, c)
  if (!period) return undefined
  const { lowest: value, highest, steady } = period
  return Math.min(lowest, pwmStart(c, load, { pwm, steady, ripple: highest - value, lowest: { value } }).lowest)
}

/** So long after it came a load that stays on is taken to go, s. */
const settled = 1e6

/** Highest rail voltage as a load that stays on goes in the end, above its source; 0 where it doesn't rise above that, or has gone already, in a burst or a period of PWM. */
export function highestReleased({ load: { rise, fall, duration } }: ReadDecoupling, board: Board, c: Circuit): number {
  const volts = steadyRail(board)
  if (duration < Number.POSITIVE_INFINITY || board.pwm !== undefined || volts <= 0) return 0
  // Of any kind of load it is the same as of a resistance that draws as much.
  const load = { kind: 'resistor', resistance: volts / steadyCurrent(board) } as const
  const { highest } = stepOf(c, load, { rise, fall, duration: settled })
  // What comes back to its source, but for rounding, has not risen above it.
  return highest > (1 + 1e-9) * board.source.voltage ? highest : 0
}

/** Highest rail voltage at rest, and when the load is released. */
export function highestOfRail({ step, pwm }: RailAnswer): number {
  const { rest } = step
  return Math.max(highestAbove(step, rest)?.value ?? rest, pwm?.highest.value ?? 0)
}
