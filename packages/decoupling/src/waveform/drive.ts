import { type Circuit, type LinearLoad, type Load, networkOf } from './circuit.js'
import { effort } from './effort.js'
import { dropOfRamp, type LoadLine, type Piece, respond, type State } from './piece.js'
import { endOf } from './ramp.js'
import { firstBelow } from './signal/lowest.js'
import { at, derivative, negative } from './signal/signal.js'

/** A run of pieces and the state after them (`null` after one without end). */
export interface Run {
  readonly pieces: readonly Piece[]
  readonly end: State | null
}

/** Changes between voltage and current limit within one stretch that are believed; a circuit without inductance needs two. */
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
    const open = respond(free, state, { current, slope: line.slope }, left)
    const isLimited = isBelow(open, c.knee, gap)
    const held = isLimited
      ? respond(networkOf(c, conductance, true), state, { current, slope: line.slope }, left)
      : open
    const signal = isLimited ? negative(held.voltage) : held.voltage
    const change = firstBelow(signal, isLimited ? -c.knee : c.knee, left, gap)
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
 * `null` where the load has no solution. One step for a linear source, a few through a current limit.
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
  if (c.source.currentLimit === undefined) {
    const free = networkOf(c, 0, false)
    const flat = open ?? at(respond(free, from, { current: c.idle + start, slope: 0 }, duration).voltage, duration)
    const z = dropOfRamp(free, duration)
    const current = wanted(flat + z * start, z)
    return current === null ? null : to(current)
  }
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
