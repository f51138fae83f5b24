import type { Board, EmptyBranch } from '../chain/board.js'
import { inrush, tangentSlope, tangentThreshold } from '../formulas/index.js'
import { Course, type Placed } from '../waveform/course.js'
import { drive } from '../waveform/drive.js'
import {
  type Circuit,
  circuit,
  type DiodePwm,
  type PwmResponse,
  type Response,
  respondThroughDiode,
} from '../waveform/inside.js'
import { lastBelow, lowest } from '../waveform/signal/lowest.js'
import { at, later, type Signal } from '../waveform/signal/signal.js'

/** How low, the diode's drop not taken off yet, and how long the capacitor alone holds. */
export interface Held {
  readonly level: number
  readonly time: number
}

/**
 * Rail voltage that a logic rail behind a diode lives on through a step or burst, and for how long without it. The diode
 * blocks from the first sag on; the capacitor falls in a straight line, which the rail must come back to: after the burst, not
 * at its end. Where the rail rings, the last time that it comes back counts, which is on the safe side.
 *
 * @param off - when the load is off again, s
 * @param rate - fall of the hold-up capacitor, V/s
 */
export function levelHeld(c: Circuit, step: Response, off: number, rate: number): Held {
  const { rest, collapse } = step
  if (rate === 0) return { level: rest, time: 0 }
  const pieces = collapse === null ? step.pieces : fromEmpty(c, off)
  for (let k = pieces.length - 1; k >= 0; k--) {
    const { piece, start } = pieces[k]!
    const { voltage, duration } = piece
    const over = above(voltage, rest - rate * start, rate)
    const last = at(over, duration) < 0 ? duration : lastBelow(over, 0, duration, 1e-12 * rest)
    if (last === null) continue
    const time = start + last
    let level = rest - rate * time
    if (last < duration) level = Math.min(level, lowest(later(voltage, last), duration - last).value)
    for (const after of pieces.slice(k + 1))
      level = Math.min(level, lowest(after.piece.voltage, after.piece.duration).value)
    return { level, time }
  }
  // The rail falls no faster than the capacitor: the diode feeds it all the time.
  return { level: collapse === null ? step.lowest.value : 0, time: 0 }
}

/** A rail less a straight line that falls. */
const above = (s: Signal, from: number, rate: number): Signal => ({
  ...s,
  constant: s.constant - from,
  slope: s.slope + rate,
})

/** After a collapse: the capacitors charge from empty once the load is off. */
function fromEmpty(c: Circuit, off: number): Placed[] {
  if (off === Number.POSITIVE_INFINITY) return []
  const zero = c.branches.map(() => 0)
  const empty = { rail: 0, source: 0, voltages: zero, currents: zero }
  const course = new Course(c, empty)
  course.clock = off
  course.add(drive(c, empty, 0, { current: c.idle, slope: 0 }, Number.POSITIVE_INFINITY), 'off')
  return course.pieces
}

/**
 * A logic rail behind a diode under PWM, with what its pulses do to the rail; `null` where it can't be followed. A peak of the logic
 * current lasts longer than many periods: it is drawn all the time.
 *
 * @param even - the steady state with the logic current drawn evenly
 */
export function heldUnderPwm(board: Board, even: PwmResponse): DiodePwm | null {
  const { source, branches, idle, load, logic, forwardVoltage, emission, slope } = board
  const { current, peak, capacitance } = logic
  if (load.kind === 'power') return null
  if (peak === 0) return { rail: even, level: even.highest.value - forwardVoltage, pulse: 0 }
  const diode = { forwardVoltage, at: current || peak, scale: emission, resistance: slope }
  const open = circuit(source, branches, Math.max(0, idle - current))
  return respondThroughDiode(open, { capacitance, current: peak, diode }, load, even)
}

/** Most series resistance of a hold-up capacitor, ohm: of a small wet electrolytic. Common practice, no source. */
export const mostHeldSeries = 1
/** Least resistance of a small diode with its capacitor, ohm. Common practice, no source. */
export const leastSlope = 10e-3
/** Width of the knee at which the diode begins to conduct, V: it takes some charge away, which is on the safe side. */
const knee = 0.05
/** What a diode that blocks lets through, as a part of the capacitor behind it. */
const blocked = 1e-3

/**
 * The hold-up capacitor behind its diode as the rail charges it: once without any drop, once with no charge up to the diode's knee and all
 * of it beyond, by the tangent of the diode's law at the most that can flow. The law is nowhere above that tangent, and either may let
 * the rail go higher: a drop keeps charge away, and takes energy out of the loop. From the highest point on the diode blocks, what was
 * charged stays there, and the rail rings on with less energy.
 */
export function heldAtInsertion({ source, logic, forwardVoltage, emission, slope }: Board): EmptyBranch[] {
  const I_p = inrush({ V_s: source.voltage, R_s: source.resistance, ESR_e: slope })
  const law = { V_fT: forwardVoltage, V_e: emission, I_p, I_f: logic.current || logic.peak || 1e-3, r_d: slope }
  // A twentieth of it flows while the capacitor's own resistance decides: there the law is steeper.
  const steepest = tangentSlope({ ...law, I_p: I_p / 20 })
  const threshold = Math.max(knee, tangentThreshold(law))
  const branch = (resistance: number): EmptyBranch => ({
    capacitance: logic.capacitance,
    resistance: Math.max(leastSlope, resistance),
    most: steepest + mostHeldSeries,
    inductance: 0,
    bias: undefined,
  })
  return [
    branch(slope),
    { ...branch(tangentSlope(law)), bias: { at: [threshold, threshold + knee], factor: [blocked, 1] } },
  ]
}
