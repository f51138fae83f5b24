import type { Board } from './board.js'
import type { ReadDecoupling } from './choice.js'
import { levelHeld } from './diode-rail.js'
import {
  branchVoltage,
  type Circuit,
  circuit,
  extremeOf,
  highestAbove,
  type PwmResponse,
  type Response,
  respondTo,
  respondToPwm,
} from './waveform/index.js'

/** What the rail does on one board. */
export interface RailAnswer {
  readonly circuit: Circuit
  /** The answer to the step or burst; to the first on-time where there is PWM. */
  readonly step: Response
  /** The steady state under PWM; `null` where there is none, undefined without PWM. */
  readonly pwm: PwmResponse | null | undefined
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
  const { rise, fall, duration, pwm: cycle } = read.load
  const on = cycle ? cycle.duty / cycle.frequency : duration
  const step = respondTo(c, board.load, { rise, fall, duration: on })
  const pwm = cycle && respondToPwm(c, board.load, { frequency: cycle.frequency, duty: cycle.duty, rise, fall })
  const lowest =
    pwm === null || step.collapse !== null || !hasRest(board)
      ? 0
      : Math.min(step.lowest.value, pwm?.lowest.value ?? Number.POSITIVE_INFINITY)
  const logic = Math.max(0, logicOf(read, board, { circuit: c, step, pwm, lowest }))
  return { circuit: c, step, pwm, lowest, logic }
}

function logicOf(
  read: ReadDecoupling,
  board: Board,
  { circuit: c, step, pwm, lowest }: Omit<RailAnswer, 'logic'>,
): number {
  const { logicRail, load } = read
  const { logic, forwardVoltage } = board
  if (logicRail === undefined) return lowest
  if (logicRail.behind === 'diode') {
    // The diode blocks while the rail is down: the capacitor alone, or what the lowest rail still gives through the diode.
    const rate = logic.peak / logic.capacitance
    const held = load.pwm
      ? pwm
        ? pwm.highest.value - rate / load.pwm.frequency
        : 0
      : levelHeld(c, step, load.duration + load.fall, rate).level
    return Math.max(lowest, held) - forwardVoltage
  }
  if (lowest === 0) return 0
  const place = c.group[c.group.length - 1]!
  const pieces = pwm ? [...step.pieces, ...pwm.pieces] : step.pieces
  return extremeOf(pieces, 1, (piece) => branchVoltage(piece, place))!.value - logic.resistance * logic.peak
}

/** Highest rail voltage at rest, and when the load is released. */
export function highestOfRail({ step, pwm }: RailAnswer): number {
  const { rest } = step
  return Math.max(highestAbove(step, rest)?.value ?? rest, pwm?.highest.value ?? 0)
}

/** Whether the source carries what is drawn all the time. */
export const hasRest = ({ source, idle }: Board): boolean =>
  source.voltage > source.resistance * idle && !(source.currentLimit! < idle)

/** Rail voltage with only what is drawn all the time. */
export const restOf = ({ source, idle }: Board): number => source.voltage - source.resistance * idle

/** Share of the time that the load counts for: 1 without PWM, else the duty with half of the edges. */
export const dutyOf = ({ load: { pwm, rise, fall } }: ReadDecoupling): number =>
  pwm ? pwm.duty + (pwm.frequency * (fall - rise)) / 2 : 1

/** Rail voltage in the end while the load stays on, capacitors as large as one likes; 0 where there is none. */
export function steadyRail(read: ReadDecoupling, board: Board): number {
  const { source, load, idle } = board
  const duty = dutyOf(read)
  const rest = restOf(board)
  const spare = source.currentLimit === undefined ? Number.POSITIVE_INFINITY : source.currentLimit - idle
  if (load.kind === 'current')
    return load.current * duty > spare ? 0 : Math.max(0, rest - source.resistance * load.current * duty)
  if (load.kind === 'resistor') {
    const free = rest / (1 + (duty * source.resistance) / load.resistance)
    return Math.max(0, Math.min(free, (spare * load.resistance) / duty))
  }
  const square = rest * rest - 4 * source.resistance * load.power
  const v = square < 0 ? 0 : (rest + Math.sqrt(square)) / 2
  return v > 0 && load.power / v <= spare ? v : 0
}

/** Current of the load in the end, while it is on. */
export function steadyCurrent(read: ReadDecoupling, board: Board): number {
  const { load } = board
  if (load.kind === 'current') return load.current
  const v = steadyRail(read, board)
  if (load.kind === 'resistor') return v / load.resistance
  return v > 0 ? load.power / v : board.source.voltage / board.source.resistance
}
