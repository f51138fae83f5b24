import type { Circuit, Load } from './circuit.js'
import { Course, type Placed } from './course.js'
import { drive, hold, riseTo } from './drive.js'
import type { Piece } from './piece.js'
import { accuracy, holdPower } from './power.js'
import { firstBelow, leastPossible, lowestUnder } from './signal/lowest.js'
import { at, negative, type Signal } from './signal/signal.js'

/**
 * The lowest or highest point of a waveform. `stationary`: the slope is 0 there. `corner`: where two pieces meet (the end of
 * the rise, the instant of switching). `end`: at the end of the load's duration; `time` is `null` where an unlimited step
 * or the rest after a burst only approaches it.
 */
export interface Extreme {
  readonly time: number | null
  readonly value: number
  readonly kind: 'stationary' | 'corner' | 'end'
}

/** When the load is switched: how long its current takes to rise and fall in a straight line, and how long it is on. Seconds. */
export interface Timing {
  readonly rise: number
  /** From the beginning of the rise to the beginning of the fall; `Infinity` for a step that stays. */
  readonly duration: number
  readonly fall: number
}

/** The rail's answer to one step or burst. */
export interface Response {
  readonly pieces: readonly Placed[]
  /** Rail voltage before the step. */
  readonly rest: number
  /** Lowest point of the whole. */
  readonly lowest: Extreme
  /** When the load can't be served any longer: the rail has no solution, or fell to 0 V; `null` where it can. */
  readonly collapse: number | null
}

/** The exact waveform of the rail when a load is switched on from rest and, after its duration, off again. */
export function respondTo(c: Circuit, load: Load, { rise, duration, fall }: Timing): Response {
  const course = new Course(c)
  const { pieces } = course
  if (rise > 0) {
    const run = riseTo(c, course.state, 0, rise, load, course.state.rail)
    if (run === null) return summary(c, pieces, 0)
    course.add(run, 'rise')
  }
  if (duration > rise) {
    const run =
      load.kind === 'power'
        ? holdPower(c, course.state, load.power, duration - rise)
        : hold(c, course.state, load, duration - rise)
    course.add(run, 'on')
    if ('hasCollapsed' in run && run.hasCollapsed) return summary(c, pieces, course.clock)
    if (run.end === null) return summary(c, pieces, null, load.kind === 'power' ? accuracy * c.source.voltage : 0)
  }
  if (fall > 0) {
    const { current } = course
    course.add(drive(c, course.state, 0, { current: c.idle + current, slope: -current / fall }, fall), 'fall')
  }
  course.add(drive(c, course.state, 0, { current: c.idle, slope: 0 }, Number.POSITIVE_INFINITY), 'off')
  return summary(c, pieces)
}

/** @param blur - by so much less than where a step ends in the end, no other point is taken for lower */
function summary(c: Circuit, pieces: readonly Placed[], collapse: number | null = null, blur = 0): Response {
  const rest = c.source.voltage - c.source.resistance * c.idle
  let low = extremeOf(pieces, 1)
  if (blur > 0 && low !== undefined) {
    const end = pieces[pieces.length - 1]!.piece.voltage.constant
    if (end - low.value <= blur) low = { time: null, value: end, kind: 'end' }
  }
  const fallen = collapse ?? (low !== undefined && low.value <= 0 ? firstZero(pieces) : null)
  const lowest = low === undefined || fallen !== null ? { time: fallen, value: 0, kind: 'corner' as const } : low
  return { pieces, rest, lowest, collapse: fallen }
}

/** The highest point after the load is released; of a step that stays, from its beginning. */
export function highestOf({ pieces, rest }: Response): Extreme {
  const released = pieces.filter(({ phase }) => phase === 'fall' || phase === 'off')
  return extremeOf(released.length > 0 ? released : pieces, -1) ?? { time: 0, value: rest, kind: 'corner' }
}

/**
 * The highest point of the whole where it is above a voltage; undefined where the rail stays at or below that. With inductance in its
 * capacitors a rail rings above where it rested when the load comes on, too.
 */
export const highestAbove = ({ pieces }: Response, volts: number): Extreme | undefined =>
  extremeOf(pieces, -1, railVoltage, volts)

const railVoltage = (piece: Piece): Signal => piece.voltage

/**
 * Lowest (`sign` 1) or highest (`sign` -1) point over some pieces, of the rail unless another signal is asked for.
 *
 * @param beyond - only a point lower, or higher, than this counts; undefined where there is none
 */
export function extremeOf(
  pieces: readonly Placed[],
  sign: 1 | -1,
  signalOf: (piece: Piece) => Signal = railVoltage,
  beyond: number = sign * Number.POSITIVE_INFINITY,
): Extreme | undefined {
  let best: Extreme | undefined
  let most = sign * beyond
  for (let i = 0; i < pieces.length; i++) {
    const { piece, start, phase } = pieces[i]!
    const { duration } = piece
    const signal = signalOf(piece)
    if (leastPossible(signal, duration, sign) >= most) continue
    const found = lowestUnder(sign === 1 ? signal : negative(signal), duration, most)
    if (found === undefined) continue
    const { time, value } = found
    const isAtEnd = time === duration
    const isOver =
      isAtEnd && (duration === Number.POSITIVE_INFINITY || (phase === 'on' && pieces[i + 1]?.phase !== 'on'))
    const kind = isOver ? 'end' : isAtEnd || time === 0 ? 'corner' : 'stationary'
    best = { time: time === Number.POSITIVE_INFINITY ? null : start + time, value: sign * value, kind }
    // Where two pieces meet, the later one must be lower by more than rounding.
    most = value - 1e-13 * Math.abs(value)
  }
  return best
}

/** When the rail first reaches 0 V. */
function firstZero(pieces: readonly Placed[]): number {
  for (const { piece, start } of pieces) {
    const { voltage, duration } = piece
    if (at(voltage, 0) <= 0) return start
    const time = firstBelow(voltage, 0, duration, 0)
    if (time !== null) return start + time
  }
  return 0
}

/** Rail voltage at a time; before 0 the rest, after the last piece (a collapse) 0. */
export function voltageAt({ pieces, rest, collapse }: Response, time: number): number {
  if (time < 0) return rest
  if (collapse !== null && time >= collapse) return 0
  let placed = pieces[0]!
  for (const next of pieces) if (next.start <= time) placed = next
  return at(placed.piece.voltage, time - placed.start)
}
