import type { Circuit, Load } from './circuit.js'
import { drawn, drive, type Run, riseTo } from './drive.js'
import { loadCurrent, type Piece, type State } from './piece.js'
import { at } from './signal.js'

/** A run that may have ended in the load's having no solution. */
export interface Held extends Run {
  readonly hasCollapsed: boolean
}

/** Largest error of one step, as a part of the open-circuit voltage. */
const accuracy = 1e-7
/** Most steps of one burst; a rail that needs more oscillates. */
const mostSteps = 4000

/**
 * A constant power held for a time. The network is linear, the load isn't: over one step its current is a straight line whose
 * end satisfies `i·v = P` exactly, and the network's answer to that line is exact; steps are halved until two of them agree
 * with one. Inductances of capacitors must be 0: a constant power behind inductance only has no solution. A rail that never
 * stands still counts as collapsed: a constant power is a negative resistance, and makes an undamped loop oscillate.
 *
 * @param duration - s; `Infinity` runs until the rail stands still
 */
export function holdPower(c: Circuit, from: State, power: number, duration: number): Held {
  const load: Load = { kind: 'power', power }
  const pieces: Piece[] = []
  const slowest = slowestTime(c)
  const total = duration === Number.POSITIVE_INFINITY ? 200 * slowest : duration
  let state = from
  const first = startCurrent(c, state, load)
  if (first === null) return { pieces, end: null, hasCollapsed: true }
  let current = first
  let clock = 0
  let step = Math.min(total, slowest / 64)
  for (let n = 0; n < mostSteps && clock < total; n++) {
    const h = Math.min(step, total - clock)
    const half = riseTo(c, state, current, h / 2, load)
    const second = half && riseTo(c, half.end!, currentAfter(half, c), h / 2, load)
    const whole = second && riseTo(c, state, current, h, load)
    if (!whole) {
      if (h < 1e-9 * slowest) return { pieces, end: null, hasCollapsed: true }
      step = h / 4
      continue
    }
    const error = Math.abs(whole.end!.rail - second.end!.rail) / c.source.voltage
    if (error > accuracy) {
      step = h * Math.max(0.2, 0.9 * Math.cbrt(accuracy / error))
      if (step < 1e-9 * slowest) return { pieces, end: null, hasCollapsed: true }
      continue
    }
    pieces.push(...half.pieces, ...second.pieces)
    clock += h
    state = second.end!
    const next = currentAfter(second, c)
    const isStill = error < 0.01 * accuracy && h > slowest && Math.abs(next - current) <= 1e-9 * current
    current = next
    if (isStill) {
      const rest = drive(c, state, 0, { current: c.idle + current, slope: 0 }, duration - clock)
      return { pieces: [...pieces, ...rest.pieces], end: rest.end, hasCollapsed: false }
    }
    step = h * Math.min(4, 0.9 * Math.cbrt(accuracy / Math.max(error, 1e-30)))
  }
  return { pieces, end: state, hasCollapsed: clock < total || duration === Number.POSITIVE_INFINITY }
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
function slowestTime(c: Circuit): number {
  const [piece] = drive(
    c,
    {
      rail: c.source.voltage,
      source: 0,
      voltages: c.branches.map(() => c.source.voltage),
      currents: c.branches.map(() => 0),
    },
    0,
    { current: 0, slope: 0 },
    1,
  ).pieces
  return Math.max(...piece!.solved.roots.re.map((x) => -1 / x))
}
