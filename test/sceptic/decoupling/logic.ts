import { apply, exponential, zeros } from '../tools/linear.js'
import type { PulsedRail } from './pulsed-rail.js'

/** A rail under PWM, and a hold-up capacitor behind a diode on it. */
export interface Fed extends PulsedRail {
  readonly open: number
  readonly hold: number
  readonly logic: number
  /** Forward voltage at the logic current, 25 °C. */
  readonly drop: number
}

/** Thermal voltage at 25 °C: the slope of an ideal diode, the least that any has. */
const THERMAL = 0.02569

/**
 * Lowest voltage of the hold-up capacitor in the steady state. The rail goes on exactly over each step with the diode's
 * current of its beginning held; that current is the one at which the diode's exponential law and both capacitors agree at
 * the step's end.
 */
export function lowestLogic(r: Fed): number {
  const steps = 2000
  const h = 1 / r.frequency / steps
  // States: source current, capacitor voltage, 1, what leaves the rail.
  const a = zeros(4)
  a[0]![0] = -(r.resistance + r.series) / r.inductance
  a[0]![1] = -1 / r.inductance
  a[0]![2] = r.open / r.inductance
  a[0]![3] = r.series / r.inductance
  a[1]![0] = 1 / r.capacitance
  a[1]![3] = -1 / r.capacitance
  const e = exponential(a, h)
  const railOf = (x: ArrayLike<number>) => x[1]! + r.series * (x[0]! - x[3]!)
  let x = Float64Array.of(r.load * r.duty, r.open - r.resistance * r.load * r.duty, 1, 0)
  let held = r.open - r.resistance * r.load * r.duty - r.drop
  let lowest = Number.POSITIVE_INFINITY
  for (let period = 0; period < 400; period++) {
    const before = held
    lowest = Number.POSITIVE_INFINITY
    for (let k = 0; k < steps; k++) {
      const load = k < r.duty * steps ? r.load : 0
      const end = (diode: number) => {
        x[3] = load + diode
        const next = apply(e, x)
        return { next, volts: railOf(next), held: held + ((diode - r.logic) * h) / r.hold }
      }
      const [none, one] = [end(0), end(1)]
      const slope = one.volts - none.volts - (one.held - none.held)
      // ln(i / logic) thermal + drop = rail - held, by Newton in the logarithm.
      let log = Math.log(1e-9)
      for (let turn = 0; turn < 60; turn++) {
        const i = Math.exp(log)
        const off = none.volts - none.held + slope * i - r.drop - THERMAL * (log - Math.log(r.logic))
        const move = off / (THERMAL - slope * i)
        log += Math.max(-3, Math.min(3, move))
        if (Math.abs(move) < 1e-10) break
      }
      const now = end(Math.exp(log))
      x = Float64Array.from(now.next)
      held = now.held
      lowest = Math.min(lowest, held)
    }
    if (Math.abs(held - before) < 1e-6 && period > 20) break
  }
  return lowest
}
