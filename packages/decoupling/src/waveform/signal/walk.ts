import type { Signal } from './signal.js'

/**
 * A signal followed from its beginning to an end, in steps as long as what is known at each point allows. Its modes only decay: sizes
 * added up at a time bound the curvature and all else from then on.
 *
 * Between two neighbouring points the signal is never lower than at both of them, and passes a level at most once; or
 * it surely stays above the floor that was asked for.
 */
export class Walk {
  time = 0
  /** Steps so far. */
  steps = 0
  value = 0
  slope = 0
  private bend = 0
  /** How much the modes can still take off the straight line, at most. */
  private under = 0
  /** Largest size that the curvature, and its rate of change, can still have. */
  private mostBend = 0
  private mostTwist = 0

  constructor(
    private readonly signal: Signal,
    private readonly end: number,
  ) {
    this.to(0)
  }

  /** Value, slope, curvature and bounds at a time; each exponential is taken once. */
  to(t: number): void {
    const { constant, slope, curve, roots, re, im } = this.signal
    let v = constant + t * (slope + t * curve)
    let d = slope + 2 * t * curve
    let dd = 2 * curve
    let under = 0
    let mostBend = Math.abs(dd)
    let mostTwist = 0
    for (let j = 0; j < re.length; j++) {
      const x = roots.re[j]!
      const y = roots.im[j]!
      const decay = Math.exp(x * t)
      if (y === 0) {
        const p = re[j]! * decay
        const bend = p * x * x
        v += p
        d += p * x
        dd += bend
        if (p < 0) under -= p
        mostBend += Math.abs(bend)
        mostTwist += Math.abs(bend * x)
        continue
      }
      const c = 2 * decay * Math.cos(y * t)
      const s = 2 * decay * Math.sin(y * t)
      const p = re[j]! * c - im[j]! * s
      const q = re[j]! * s + im[j]! * c
      const p1 = p * x - q * y
      v += p
      d += p1
      dd += p1 * x - (p * y + q * x) * y
      const size = Math.sqrt(p * p + q * q)
      const square = x * x + y * y
      under += size
      mostBend += size * square
      mostTwist += size * square * Math.sqrt(square)
    }
    this.time = t
    this.value = v
    this.slope = d
    this.bend = dd
    this.under = under
    this.mostBend = mostBend
    this.mostTwist = mostTwist
  }

  /** Goes on to the next point; `false` where nothing that is left comes below `floor`, or the end is reached. */
  next(floor: number): boolean {
    const { time, end, slope, bend, under } = this
    if (!(time < end) || this.leastOfLine() - under >= floor) return false
    const next = Math.min(end, time + this.step(floor))
    if (next === Number.POSITIVE_INFINITY) return false
    this.steps++
    const span = next - time
    const isConvex = bend > this.mostTwist * span * (1 - 1e-9)
    this.to(next)
    if (isConvex && slope < 0 && this.slope > 0) this.bottom(time, next, slope)
    return true
  }

  /** What nothing from here to the end comes below. */
  get least(): number {
    return this.leastOfLine() - this.under
  }

  /** Lowest of the signal without its modes from here to the end. */
  private leastOfLine(): number {
    const { time, end } = this
    const { constant, slope, curve } = this.signal
    const here = constant + time * (slope + time * curve)
    if (end === Number.POSITIVE_INFINITY) return slope >= 0 ? here : Number.NEGATIVE_INFINITY
    const there = constant + end * (slope + end * curve)
    const half = (end - time) / 2
    return Math.min(here, there) - Math.max(0, curve) * half * half
  }

  /** How far slope or curvature surely keep their sign, or the signal stays above a floor. */
  private step(floor: number): number {
    const { value, slope, bend, mostBend, mostTwist, under } = this
    if (mostTwist === 0) return Number.POSITIVE_INFINITY
    // At the least so far that the curvature can't make a difference.
    let longest = Math.max(Math.abs(slope) / mostBend, Math.abs(bend) / mostTwist, (1e-6 * mostBend) / mostTwist)
    const room = value - floor
    if (room > 0) longest = Math.max(longest, (slope + Math.sqrt(slope * slope + 2 * mostBend * room)) / mostBend)
    if (this.signal.curve === 0 && this.signal.slope < 0) {
      const line = this.signal.constant + this.time * this.signal.slope
      longest = Math.max(longest, (line - under - floor) / -this.signal.slope)
    }
    return longest
  }

  /** Goes to the lowest point of a stretch in which the signal is convex: Newton's steps, halving where they leave it. */
  private bottom(from: number, to: number, slopeThere: number): void {
    let low = from
    let high = to
    let next = from + ((to - from) * slopeThere) / (slopeThere - this.slope)
    for (let i = 0; i < 60; i++) {
      this.to(next)
      if (this.slope > 0) high = next
      else low = next
      next = this.time - this.slope / this.bend
      if (!(next >= low && next <= high)) next = (low + high) / 2
      if (Math.abs(next - this.time) <= 1e-9 * next) break
    }
    this.to(next)
    this.slope = 0
  }
}
