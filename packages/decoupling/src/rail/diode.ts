import type { Board } from '../chain/board.js'
import { Course, type Placed } from '../waveform/course.js'
import { drive } from '../waveform/drive.js'
import {
  type Circuit,
  circuit,
  type DiodePwm,
  type PwmResponse,
  type Response,
  respondThroughDiode,
} from '../waveform/index.js'
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
