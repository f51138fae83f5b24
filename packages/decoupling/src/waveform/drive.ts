import { type Circuit, type LinearLoad, type Load, networkOf } from './circuit.js'
import { effort } from './effort.js'
import { dropOfRamp, type LoadLine, type Piece, respond, type State } from './piece.js'
import { sourceDrain } from './quantities.js'
import { endOf } from './ramp.js'
import { firstBelow } from './signal/lowest.js'
import { at, derivative, negative } from './signal/signal.js'

/** A run of pieces and the state after them (`null` after one without end). */
export interface Run {
  readonly pieces: readonly Piece[]
  readonly end: State | null
}

/** Changes between voltage and current limit within one stretch that are believed: a loop that rings has two in each turn. */
const believed = 8
/** Most changes; before it the gap is wider than any voltage. */
const mostChanges = 100

/** Drives a circuit with a straight-line load current, beside a conductance, for a time: through its current limit too. */
export function drive(c: Circuit, from: State, conductance: number, line: LoadLine, duration: number): Run {
  const free = networkOf(c, conductance, false)
  if (c.source.currentLimit === undefined) {
    const piece = respond(free, from, line, duration)
    return { pieces: [piece], end: duration === Number.POSITIVE_INFINITY ? null : endOf(piece, from) }
  }
  let gap = 1e-12 * c.source.voltage
  const pieces: Piece[] = []
  let state = from
  let [left, { current }] = [duration, line]
  for (;;) {
    const here = { current, slope: line.slope }
    const { held, change } = stretch(c, conductance, state, here, left, gap)
    const isLast = pieces.length >= mostChanges
    // Where it changes without end at its knee, nothing is sure of what follows.
    if (isLast) effort.isOpen = true
    if (change === null || change >= left || isLast) {
      pieces.push(held)
      return { pieces, end: left === Number.POSITIVE_INFINITY ? null : endOf(held, state) }
    }
    const passed = { ...held, duration: change }
    pieces.push(passed)
    state = endOf(passed, state)
    left -= change
    current += line.slope * change
    // Changes without end are rounding at the knee.
    if (pieces.length > believed) gap *= 2
  }
}

/** A stretch at the current limit or off it, and when that changes. */
function stretch(c: Circuit, conductance: number, from: State, line: LoadLine, left: number, gap: number) {
  const { inductance, currentLimit, voltage } = c.source
  const through = (isLimited: boolean) => respond(networkOf(c, conductance, isLimited), from, line, left)
  // An inductance keeps its current: at the limit is what has come there, on a rail that would take more.
  const hasCome = inductance > 0 && from.source >= currentLimit! * (1 - (2 * gap) / voltage)
  const held = through(hasCome)
  if ((inductance === 0 || hasCome) && isBelow(held, c.knee, gap)) {
    const piece = hasCome ? held : through(true)
    return { held: piece, change: firstBelow(negative(piece.voltage), -c.knee, left, gap) }
  }
  const open = hasCome ? through(false) : held
  return { held: open, change: leavesFree(c, open, gap) }
}

/** When a piece off the limit comes to it; `null` where it never does. */
export function leavesFree({ source, knee }: Circuit, piece: Piece, gap: number): number | null {
  const { currentLimit, inductance, voltage } = source
  if (currentLimit === undefined) return null
  if (inductance === 0) return firstBelow(piece.voltage, knee, piece.duration, gap)
  return firstBelow(sourceDrain(piece), -currentLimit, piece.duration, currentLimit * (gap / voltage))
}

/** A current or a resistor fully on for a time, beside what is drawn all the time. */
export function hold(c: Circuit, from: State, load: LinearLoad, duration: number): Run {
  return load.kind === 'current'
    ? drive(c, from, 0, { current: c.idle + load.current, slope: 0 }, duration)
    : drive(c, from, 1 / load.resistance, { current: c.idle, slope: 0 }, duration)
}

/** Whether the rail begins below the knee, or on it and falling. */
function isBelow(piece: Piece, knee: number, gap: number): boolean {
  const above = at(piece.voltage, 0) - knee
  return Math.abs(above) <= 2 * gap ? at(derivative(piece.voltage), 0) < 0 : above < 0
}

/** Whether the source is off its current limit in a piece. */
export const isFree = ({ solved }: Piece): boolean => !('current' in solved.network.feed)

/** What the load draws on a rail that stands at `a - z·current`; `null` where no current satisfies it. */
export const drawn =
  (load: Load) =>
  (a: number, z: number): number | null => {
    if (load.kind === 'current') return load.current
    if (load.kind === 'resistor') return a / (load.resistance + z)
    const square = a * a - 4 * z * load.power
    return square < 0 || a <= 0 ? null : (2 * load.power) / (a + Math.sqrt(square))
  }

/**
 * The straight line from `start` that ends after `duration` where the load wants it, the end being {@link drawn}'s.
 * `null` where the load has no solution. One step off the current limit, a few through it.
 *
 * @param open - rail voltage that the end would have with the current of the start, where it is known
 */
export function riseTo(
  c: Circuit,
  from: State,
  start: number,
  duration: number,
  load: Load,
  open?: number,
): Run | null {
  const to = (current: number): Run =>
    drive(c, from, 0, { current: c.idle + start, slope: (current - start) / duration }, duration)
  if (load.kind === 'current') return to(load.current)
  const wanted = drawn(load)
  const free = networkOf(c, 0, false)
  const flat = open ?? at(respond(free, from, { current: c.idle + start, slope: 0 }, duration).voltage, duration)
  const drop = dropOfRamp(free, duration)
  const current = wanted(flat + drop * start, drop)
  const isUnlimited = c.source.currentLimit === undefined
  if (current === null && isUnlimited) return null
  const first = current === null ? null : to(current)
  // What never comes to the limit has none.
  if (first !== null && (isUnlimited || first.pieces.every(isFree))) return first
  let low = start
  let vLow = to(low).end!.rail
  let high = start + Math.max(1, Math.abs(start))
  for (let i = 0; i < 60; i++) {
    const vHigh = to(high).end!.rail
    const z = (vLow - vHigh) / (high - low)
    const current = wanted(vLow + z * low, z)
    if (current === null) return null
    const run = to(current)
    const expected = vLow - z * (current - low)
    if (current === high || Math.abs(run.end!.rail - expected) <= 1e-12 * c.source.voltage) return run
    low = high
    vLow = vHigh
    high = current
  }
  return null
}
