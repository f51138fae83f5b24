import { type Circuit, type Load, networkOf } from './circuit.js'
import { drawn, drive, leavesFree, type Run, riseTo } from './drive.js'
import { effort } from './effort.js'
import { type Piece, respond, type State, stateAt } from './piece.js'
import { loadCurrent } from './quantities.js'
import { at } from './signal/signal.js'

/** A run that may have ended in the load's having no solution. */
export interface Held extends Run {
  readonly hasCollapsed: boolean
}

/** Largest error of one step, as a part of the open-circuit voltage. */
export const accuracy = 1e-7
/** Most steps of one burst; a rail that needs more oscillates. */
const [mostSteps, fewSteps] = [4000, 60]
/** Steps shorter than this part of the slowest natural time have straight lines: what a curve adds is lost in rounding there. */
const straight = 1e-3

/** One step that was tried. */
interface Step {
  readonly pieces: readonly Piece[]
  readonly end: State
  /** Current of the load there. */
  readonly current: number
  /** Of the rail voltage, as a part of the open-circuit voltage. */
  readonly error: number
  /** With which power of the length the error grows. */
  readonly order: number
}

/**
 * A constant power held for a time. The network is linear, the load isn't: over one step its current is a curve that satisfies
 * `i·v = P` exactly at some instants, and the network's answer to that curve is exact; what `i·v` misses in between tells the
 * error, and with it the length of the steps. Inductances of capacitors must be 0: a constant power behind inductance
 * only has no solution. A rail that never stands still counts as collapsed: a constant power is a negative resistance, and
 * makes an undamped loop oscillate.
 *
 * @param duration - s; `Infinity` runs until the rail stands still
 */
export function holdPower(c: Circuit, from: State, power: number, duration: number): Held {
  const load = { kind: 'power', power } as const
  const pieces: Piece[] = []
  const slowest = slowestTime(c)
  const total = duration === Number.POSITIVE_INFINITY ? 200 * slowest : duration
  // What rounding leaves of the last step is none.
  const end = total * (1 - 1e-12)
  let state = from
  let clock = 0
  let step = Math.min(total, slowest / 64)
  let current = startCurrent(c, state, load)
  if (current === null) return { pieces, end: null, hasCollapsed: true }
  const most = effort.most(mostSteps, fewSteps)
  for (let n = 0; n < most && clock < end; n++) {
    effort.spend(60 + 15 * (c.branches.length + 1) ** 2)
    const h = Math.min(step, total - clock)
    const curve: Step | null = h > straight * slowest ? curved(c, state, current, h, power) : null
    const isCurved: boolean = h > straight * slowest && staysFree(c, curve)
    const tried: Step | null = isCurved ? curve : lined(c, state, current, h, load)
    const grows = tried === null ? 0.25 : 0.9 * (accuracy / Math.max(tried.error, 1e-30)) ** (1 / tried.order)
    if (tried === null || tried.error > accuracy) {
      step = h * Math.max(0.2, grows)
      if (step < 1e-9 * slowest) return { pieces, end: null, hasCollapsed: true }
      continue
    }
    pieces.push(...tried.pieces)
    clock += h
    state = tried.end
    const isStill = tried.error < 0.01 * accuracy && h > slowest && Math.abs(tried.current - current) <= 1e-9 * current
    current = tried.current
    if (isStill) {
      const rest = drive(c, state, 0, { current: c.idle + current, slope: 0 }, duration - clock)
      return { pieces: [...pieces, ...rest.pieces], end: rest.end, hasCollapsed: false }
    }
    step = h * Math.min(4, grows)
  }
  if (clock < end) effort.isBounded = true
  return { pieces, end: state, hasCollapsed: clock < end || duration === Number.POSITIVE_INFINITY }
}

/**
 * A parabola of the current through three instants: the start, and the middle and the end, where `i·v = P`. Two unknowns, of which
 * the rail is a linear function: Newton's method. `null` where the load has no solution nearby.
 */
function curved(c: Circuit, from: State, start: number, h: number, power: number): Step | null {
  const free = networkOf(c, 0, false)
  const driven = (s: number, q: number): Piece =>
    respond(free, from, { current: c.idle + start, slope: s / h, curve: q / (h * h) }, h)
  const [flat, ramp, bend] = [driven(0, 0).voltage, driven(1, 0).voltage, driven(0, 1).voltage]
  const [middle, end] = [at(flat, h / 2), at(flat, h)]
  const [middleS, endS] = [at(ramp, h / 2) - middle, at(ramp, h) - end]
  const [middleQ, endQ] = [at(bend, h / 2) - middle, at(bend, h) - end]
  let [s, q, moved] = [0, 0, Number.POSITIVE_INFINITY]
  for (let round = 0; round < 20 && moved > 1e-14 * start; round++) {
    const [v, i] = [middle + middleS * s + middleQ * q, start + s / 2 + q / 4]
    const [w, j] = [end + endS * s + endQ * q, start + s + q]
    if (!(v > 0 && w > 0)) return null
    const [a, b, f] = [v / 2 + i * middleS, v / 4 + i * middleQ, power - i * v]
    const [d, e, g] = [w + j * endS, w + j * endQ, power - j * w]
    const determinant = a * e - b * d
    const [ds, dq] = [(f * e - g * b) / determinant, (g * a - f * d) / determinant]
    s += ds
    q += dq
    moved = Math.abs(ds) + Math.abs(dq)
  }
  if (!(moved <= 1e-12 * start)) return null
  const piece = driven(s, q)
  const missed = (t: number) => Math.abs(power / at(piece.voltage, t * h) - start - t * (s + t * q))
  const error = (Math.max(missed(0.25), missed(0.75)) * Math.abs(endS)) / c.source.voltage
  return { pieces: [piece], end: stateAt(piece, h), current: start + s + q, error, order: 4 }
}

/** Whether a step, if there is one, never comes to the current limit. */
const staysFree = (c: Circuit, step: Step | null): boolean =>
  c.source.currentLimit === undefined ||
  (step !== null && leavesFree(c, step.pieces[0]!, 1e-12 * c.source.voltage) === null)

/** Two straight lines of the current, each of which ends where `i·v = P`, held against one over both. */
function lined(c: Circuit, from: State, start: number, h: number, load: Load): Step | null {
  const half = riseTo(c, from, start, h / 2, load)
  const second = half && riseTo(c, half.end!, currentAfter(half, c), h / 2, load)
  const whole = second && riseTo(c, from, start, h, load)
  if (!whole) return null
  const error = Math.abs(whole.end!.rail - second.end!.rail) / c.source.voltage
  const pieces = [...half.pieces, ...second.pieces]
  return { pieces, end: second.end!, current: currentAfter(second, c), error, order: 3 }
}

/** Current of the load right after the switch closes: from the rail's instantaneous impedance. */
function startCurrent(c: Circuit, state: State, load: Load): number | null {
  const rail = (current: number): number =>
    at(drive(c, state, 0, { current: c.idle + current, slope: 0 }, 0).pieces[0]!.voltage, 0)
  const a = rail(0)
  return drawn(load)(a, a - rail(1))
}

const currentAfter = ({ pieces }: Run, c: Circuit): number => {
  const last = pieces[pieces.length - 1]!
  return at(loadCurrent(last), last.duration) - c.idle
}

/** The circuit's slowest natural time, the current limit's aside. */
const slowestTime = (c: Circuit): number => Math.max(...networkOf(c, 0, false).roots.re.map((x) => -1 / x))
