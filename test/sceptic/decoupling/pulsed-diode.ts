import type { PulsedRail } from './pulsed-rail.js'

/** A rail with inductance under PWM, and a capacitor behind a diode on it. SI units. */
export interface Pulsed extends PulsedRail {
  readonly open: number
  readonly edge: number
  readonly hold: number
  readonly logic: number
  /** Forward voltage at the logic current, thermal voltage times emission coefficient, resistance in series. */
  readonly drop: number
  readonly scale: number
  readonly slope: number
}

/**
 * Lowest rail and lowest voltage of the capacitor in the period that repeats itself: implicit midpoint steps, in each the current at which
 * the exponential law, the rail and the capacitor agree, by Newton's method in its logarithm.
 *
 * @param start - where the capacitor begins
 */
export function lowestPulsed(x: Pulsed, start: number, steps = 4000): { rail: number; held: number } {
  const h = 1 / x.frequency / steps
  const half = h / 2
  // y = source current, capacitor voltage; y' = A y + b + g·q, q what leaves the rail.
  const m00 = 1 + (half * (x.resistance + x.series)) / x.inductance
  const m01 = half / x.inductance
  const m10 = -half / x.capacitance
  const determinant = m00 - m01 * m10
  const midpoint = (p: number, q: number) => [(p - m01 * q) / determinant, (m00 * q - m10 * p) / determinant] as const
  const [gi, gu] = [(half * x.series) / x.inductance, -half / x.capacitance]
  const [zi, zu] = midpoint(gi, gu)
  const on = x.duty / x.frequency
  const drawn = (t: number) =>
    t < x.edge ? (x.load * t) / x.edge : t < on ? x.load : Math.max(0, x.load * (1 - (t - on) / x.edge))
  let i = x.logic + x.load * x.duty
  let u = x.open - x.resistance * i
  let w = start
  let log = Math.log(x.logic)
  for (let period = 0; ; period++) {
    const before = w
    let [rail, held] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]
    for (let k = 0; k < steps; k++) {
      const q = drawn((k + 0.5) * h)
      const [fi, fu] = midpoint(i + half * (x.open / x.inductance) + gi * q, u + gu * q)
      const volts = fu + x.series * (fi - q)
      const bend = zu + x.series * (zi - 1)
      for (let turn = 0; turn < 100; turn++) {
        const d = Math.exp(log)
        const across = x.drop + x.scale * (log - Math.log(x.logic)) + x.slope * (d - x.logic)
        const off = volts + bend * d - w - (half * (d - x.logic)) / x.hold - across
        const move = off / (x.scale + (x.slope - bend + half / x.hold) * d)
        log += Math.max(-3, Math.min(3, move))
        if (Math.abs(move) < 1e-11) break
      }
      const d = Math.exp(log)
      rail = Math.min(rail, volts + bend * d)
      i = 2 * (fi + zi * d) - i
      u = 2 * (fu + zu * d) - u
      w += (h * (d - x.logic)) / x.hold
      held = Math.min(held, w)
    }
    if (period > 400 || (period > 30 && Math.abs(w - before) < 1e-7)) return { rail, held }
  }
}
