import type { Circuit } from '../circuit.js'
import type { Placed } from '../course.js'
import { drive } from '../drive.js'
import type { LoadLine, Piece, State } from '../piece.js'
import { branchCurrent } from '../quantities.js'
import { endOf } from '../ramp.js'
import { firstBelow } from '../signal/lowest.js'
import { envelope, negative, type Signal } from '../signal/signal.js'

/** A capacitor that the rail charges through a diode, and what is drawn from it all the time. SI units. */
export interface Held {
  readonly capacitance: number
  readonly current: number
  /** The diode while it conducts: a voltage, and a resistance above 0 beside it. */
  readonly threshold: number
  readonly slope: number
}

/** A rail with a diode on it: what the circuit is while that blocks and while it conducts. */
export interface DiodeRail {
  readonly held: Held
  readonly open: Circuit
  /** The same with the capacitor as one more branch, the last: its voltage that of the rail at which only `current` flows. */
  readonly closed: Circuit
}

/** What rail and capacitor remember. */
export interface DiodeState {
  readonly rail: State
  /** Voltage of the capacitor. */
  readonly held: number
}

/** A stretch with its place in time, and the diode as it is in it. */
export interface DiodePlaced extends Placed {
  readonly conducts: boolean
  /** Voltage of the capacitor at its beginning. */
  readonly held: number
}

/** A rail with a diode on its way. */
export interface DiodeCourse {
  readonly pieces: DiodePlaced[]
  clock: number
  state: DiodeState
}

/** Changes of the diode within one stretch that are followed: a rail that rings above the capacitor has two in each turn. */
const mostChanges = 200

/** What is lost of a sum of large parts. */
const rounding = 4e-15

/** A rail with a diode. @param open - the rail alone, what is drawn behind the diode left out of its idle current */
export function diodeRail(open: Circuit, held: Held): DiodeRail {
  let resistance = held.slope
  const { capacitance } = held
  // Equal time constants would be one branch, and this one must stay apart.
  const isTwin = () =>
    open.branches.some(
      (b) => Math.abs(b.resistance * b.capacitance - resistance * capacitance) <= 1e-6 * resistance * capacitance,
    )
  while (isTwin()) resistance *= 1 + 1e-5
  const closed: Circuit = {
    ...open,
    branches: [...open.branches, { capacitance, resistance, inductance: 0 }],
    group: [...open.group, open.branches.length],
    share: [...open.share, 1],
    idle: open.idle + held.current,
    isInductive: false,
    solved: [],
  }
  return { held: { ...held, slope: resistance }, open, closed }
}

/** What the rail must stand above for the diode to carry `current` with the capacitor at a voltage. */
const standing = ({ held: { threshold, slope, current } }: DiodeRail, volts: number): number =>
  volts + threshold + slope * current

/**
 * Drives a rail with a diode on with a straight-line load current, beside a conductance, for a time.
 *
 * @returns whether it could be followed: `false` where the diode changes more often than that
 */
export function driveDiode(
  x: DiodeRail,
  course: DiodeCourse,
  conductance: number,
  { current: load, slope }: LoadLine,
  duration: number,
  phase: Placed['phase'],
): boolean {
  let left = duration
  let conducts = false
  for (let changes = 0; changes < mostChanges; changes++) {
    const c = conducts ? x.closed : x.open
    const line = { current: c.idle + load + slope * (duration - left), slope }
    const run = drive(c, conducts ? joined(x, course.state) : course.state.rail, conductance, line, left)
    let hasChanged = false
    for (const piece of run.pieces) {
      const { rail, held } = course.state
      const signal = conducts ? flowing(x, piece) : blocked(x, piece, held)
      const least = conducts ? 1e-9 * (x.held.current + 1e-3) : 1e-12 * x.open.source.voltage
      const gap = least + rounding * (Math.abs(signal.constant) + envelope(signal, 0))
      const change = firstBelow(signal, 0, piece.duration, gap)
      hasChanged = change !== null
      if (change === 0) break
      const passed = change === null ? piece : cut(piece, change)
      course.pieces.push({ piece: passed, start: course.clock, phase, conducts, held })
      const end = endOf(passed, conducts ? joined(x, course.state) : rail)
      course.state = conducts ? parted(x, end) : { rail: end, held: held - fallOf(x) * passed.duration }
      course.clock += passed.duration
      left -= passed.duration
      if (hasChanged) break
    }
    if (!hasChanged || left <= 1e-12 * duration) return true
    conducts = !conducts
  }
  return false
}

const cut = ({ solved, load, voltage, sourceConstant, sourceSlope, sourceCurve }: Piece, duration: number): Piece => ({
  solved,
  load,
  duration,
  voltage,
  sourceConstant,
  sourceSlope,
  sourceCurve,
})

/** The rail's state as the circuit with the conducting diode has it. */
const joined = (x: DiodeRail, { rail: { rail, source, voltages, currents }, held }: DiodeState): State => ({
  rail,
  source,
  voltages: [...voltages, standing(x, held)],
  currents: [...currents, 0],
})

/** The same taken apart. */
function parted(x: DiodeRail, { rail, source, voltages, currents }: State): DiodeState {
  const n = x.open.branches.length
  const state = { rail, source, voltages: voltages.slice(0, n), currents: currents.slice(0, n) }
  return { rail: state, held: voltages[n]! - standing(x, 0) }
}

/** How fast the capacitor falls by itself, V/s. */
const fallOf = ({ held }: DiodeRail): number => held.current / held.capacitance

/** By how much the diode blocks: below 0 where it would conduct. */
function blocked(x: DiodeRail, { voltage }: Piece, volts: number): Signal {
  const { constant, slope, curve, roots, re, im } = negative(voltage)
  return { constant: constant + volts + x.held.threshold, slope: slope - fallOf(x), curve, roots, re, im }
}

/** Current of the diode while it conducts. */
export function flowing({ held, open }: DiodeRail, piece: Piece): Signal {
  const { constant, slope, curve, roots, re, im } = branchCurrent(piece, open.branches.length)
  return { constant: constant + held.current, slope, curve, roots, re, im }
}
