import { at, derivative, envelope, type Signal } from './signal.js'

/** Where a signal is lowest in `0 <= t <= duration`, and how low. Global: found by bounds, not by sampling. */
export function lowest(s: Signal, duration: number): { time: number; value: number } {
  const start = at(s, 0)
  const end = at(s, duration)
  const best = start <= end ? { time: 0, value: start } : { time: duration, value: end }
  const closed = stationaryPoint(s)
  if (closed !== undefined) {
    if (closed > 0 && closed < duration) take(s, closed, best)
    return best
  }
  const swing = envelope(s, 0)
  const horizon = duration === Number.POSITIVE_INFINITY ? settled(s) : duration
  search(s, 0, horizon, best, 1e-7 * swing + 1e-15 * Math.abs(best.value))
  if (best.time > 0 && best.time < duration) polish(s, best, horizon)
  return best
}

function take(s: Signal, time: number, best: { time: number; value: number }): void {
  const value = at(s, time)
  if (value < best.value) {
    best.value = value
    best.time = time
  }
}

/** The one place where the slope is 0, in closed form; -1 where there is none; undefined where there is no such form. */
function stationaryPoint(s: Signal): number | undefined {
  const n = s.re.length
  if (s.curve !== 0 || n > 2) return undefined
  if (n === 0) return -1
  const { re, im } = s.roots
  if (n === 1) {
    if (im[0] !== 0) {
      if (s.slope !== 0) return undefined
      // v' = 2·|z|·e^(σt)·cos(ωt + φ), z = amplitude·root: 0 at ωt + φ = π/2 + kπ; rising through 0 at -π/2 + 2kπ.
      const phase = Math.atan2(s.re[0]! * im[0]! + s.im[0]! * re[0]!, s.re[0]! * re[0]! - s.im[0]! * im[0]!)
      const turn = 2 * Math.PI
      const angle = -Math.PI / 2 - phase
      return (angle - turn * Math.floor(angle / turn)) / im[0]!
    }
    const ratio = -s.slope / (s.re[0]! * re[0]!)
    return ratio > 0 ? Math.log(ratio) / re[0]! : -1
  }
  if (s.slope !== 0 || im[0] !== 0 || im[1] !== 0) return undefined
  const ratio = -(s.re[1]! * re[1]!) / (s.re[0]! * re[0]!)
  return ratio > 0 ? Math.log(ratio) / (re[0]! - re[1]!) : -1
}

/** Time after which the modes together are below 1e-13 of what they were; 0 without modes. */
function settled(s: Signal): number {
  let slowest = Number.POSITIVE_INFINITY
  for (const x of s.roots.re) slowest = Math.min(slowest, -x)
  return 30 / slowest
}

/** Up to when an endless signal has to be looked at for being below a level: after it, it stays on one side. */
function horizonFor(s: Signal, level: number): number {
  const tail = settled(s)
  return s.slope < 0 ? Math.max(tail, (s.constant + envelope(s, 0) - level) / -s.slope) * 1.001 : tail
}

/**
 * Branch and bound: an interval is dropped when neither Taylor's formula with the largest curvature nor the modes'
 * envelope lets the signal come below the best point by more than `gap`.
 */
function search(s: Signal, from: number, to: number, best: { time: number; value: number }, gap: number): void {
  const slope = derivative(s)
  const stack = [to, from]
  while (stack.length > 0) {
    const a = stack.pop()!
    const b = stack.pop()!
    const half = (b - a) / 2
    const middle = a + half
    const value = at(s, middle)
    if (value < best.value) {
      best.value = value
      best.time = middle
    }
    const least = best.value - gap
    if (value - Math.abs(at(slope, middle)) * half - 0.5 * bend(s, a) * half * half >= least) continue
    const straight = Math.min(line(s, a), line(s, b)) - Math.abs(s.curve) * half * half
    if (straight - envelope(s, a) >= least) continue
    if (half <= 1e-14 * b) continue
    stack.push(b, middle, middle, a)
  }
}

const line = (s: Signal, t: number): number => s.constant + t * (s.slope + t * s.curve)

const bend = (s: Signal, t: number): number => envelope(s, t, 2) + 2 * Math.abs(s.curve)

/** Newton's steps on the slope from the best point found, kept only while they go down. */
function polish(s: Signal, best: { time: number; value: number }, horizon: number): void {
  const first = derivative(s)
  const second = derivative(first)
  let time = best.time
  for (let i = 0; i < 8; i++) {
    const step = at(first, time) / at(second, time)
    const next = time - step
    if (!(next > 0 && next < horizon)) return
    time = next
    if (Math.abs(step) <= 1e-14 * time) break
  }
  const value = at(s, time)
  const noise = 4e-16 * Math.abs(value)
  if (value <= best.value + noise) {
    best.time = time
    best.value = value
  }
}

/**
 * The first time at which a signal is below `level`, or `null` when it stays at or above it for the whole duration. It must not
 * be below at time 0 by more than `gap`; a touch by less than `gap` doesn't count.
 */
export function firstBelow(s: Signal, level: number, duration: number, gap: number): number | null {
  const horizon = duration === Number.POSITIVE_INFINITY ? horizonFor(s, level) : duration
  const slope = derivative(s)
  const stack = [horizon, 0]
  while (stack.length > 0) {
    const a = stack.pop()!
    const b = stack.pop()!
    const half = (b - a) / 2
    const middle = a + half
    const value = at(s, middle) - level
    if (value - Math.abs(at(slope, middle)) * half - 0.5 * bend(s, a) * half * half >= -gap) continue
    const straight = Math.min(line(s, a), line(s, b)) - Math.abs(s.curve) * half * half - level
    if (straight - envelope(s, a) >= -gap) continue
    if (half <= 1e-14 * b) {
      if (value < 0) return middle
      continue
    }
    stack.push(b, middle, middle, a)
  }
  return null
}
