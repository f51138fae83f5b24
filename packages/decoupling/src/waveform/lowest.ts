import { type Jet, jetOf } from './jet.js'
import { at, envelope, type Signal } from './signal.js'

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
  if (!Number.isFinite(swing + start)) throw new Error(`a waveform has no finite size: ${start}, ${swing}`)
  const horizon = duration === Number.POSITIVE_INFINITY ? settled(s) : duration
  search(s, horizon, best, 1e-12 * swing + 1e-15 * Math.abs(best.value))
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
 * Branch and bound. An interval is dropped when neither Taylor's formula with the largest curvature nor the modes' envelope lets
 * the signal come below the best point by more than `gap`; it is finished when the signal is surely monotonic or concave
 * in it (its ends decide) or convex (Newton's method finds the bottom). Otherwise it is halved.
 */
function search(s: Signal, to: number, best: { time: number; value: number }, gap: number): void {
  const jet = jetOf(s)
  const stack = [to, 0]
  while (stack.length > 0) {
    const a = stack.pop()!
    const b = stack.pop()!
    const half = (b - a) / 2
    const middle = a + half
    jet.to(middle)
    jet.bound(a)
    const { value, slope, bend, most, mostBend } = jet
    if (value < best.value) {
      best.value = value
      best.time = middle
    }
    const least = best.value - gap
    if (value - Math.abs(slope) * half - 0.5 * mostBend * half * half >= least) continue
    if (Math.min(line(s, a), line(s, b)) - Math.abs(s.curve) * half * half - most >= least) continue
    const change = jet.mostTwist * half
    if (bend > change) bottom(s, jet, a, b, best)
    else if (Math.abs(slope) > mostBend * half || bend < -change || half <= 1e-14 * b) {
      take(s, a, best)
      take(s, b, best)
    } else stack.push(b, middle, middle, a)
  }
}

/** The lowest point of an interval in which the signal is convex: Newton's steps, halving where they leave it. */
function bottom(s: Signal, jet: Jet, from: number, to: number, best: { time: number; value: number }): void {
  let [low, high] = [from, to]
  let time = (low + high) / 2
  for (let i = 0; i < 60; i++) {
    jet.to(time)
    if (jet.slope > 0) high = time
    else low = time
    const next = time - jet.slope / jet.bend
    const moved = (next > low && next < high ? next : (low + high) / 2) - time
    time += moved
    if (Math.abs(moved) <= 1e-13 * time) break
  }
  take(s, time, best)
  take(s, from, best)
  take(s, to, best)
}

const line = (s: Signal, t: number): number => s.constant + t * (s.slope + t * s.curve)

/**
 * The first time at which a signal is below `level`, or `null` when it stays at or above it for the whole duration. It must not
 * be below at time 0 by more than `gap`; a touch by less than `gap` doesn't count.
 */
export const firstBelow = (s: Signal, level: number, duration: number, gap: number): number | null =>
  below(s, level, duration, gap, 'first')

/** The last time at which a signal is below `level`, or `null`; it must not be below at the end. */
export const lastBelow = (s: Signal, level: number, duration: number, gap: number): number | null =>
  below(s, level, duration, gap, 'last')

function below(s: Signal, level: number, duration: number, gap: number, which: 'first' | 'last'): number | null {
  const horizon = duration === Number.POSITIVE_INFINITY ? horizonFor(s, level) : duration
  const jet = jetOf(s)
  const stack = [horizon, 0]
  while (stack.length > 0) {
    const a = stack.pop()!
    const b = stack.pop()!
    const half = (b - a) / 2
    const middle = a + half
    jet.to(middle)
    jet.bound(a)
    const steep = Math.abs(jet.slope)
    const value = jet.value - level
    if (value - steep * half - 0.5 * jet.mostBend * half * half >= -gap) continue
    if (Math.min(line(s, a), line(s, b)) - Math.abs(s.curve) * half * half - level - jet.most >= -gap) continue
    if (half <= 1e-13 * b) {
      if (value < 0) return middle
      continue
    }
    // Surely monotonic: the crossing, by halving, if there is one.
    if (steep > jet.mostBend * half) {
      const crossing = between(s, level - gap, a, b, which)
      if (crossing !== null) return crossing
      continue
    }
    if (which === 'first') stack.push(b, middle, middle, a)
    else stack.push(middle, a, b, middle)
  }
  return null
}

/** Where a monotonic stretch comes below a level first, or is below it last; `null` where it isn't. */
function between(s: Signal, level: number, from: number, to: number, which: 'first' | 'last'): number | null {
  const isLow = at(s, from) < level
  const isEndLow = at(s, to) < level
  if (isLow === isEndLow) return isLow ? (which === 'first' ? from : to) : null
  if (which === 'first' ? isLow : isEndLow) return which === 'first' ? from : to
  let [low, high] = [from, to]
  for (let i = 0; i < 60 && high - low > 1e-13 * high; i++) {
    const middle = (low + high) / 2
    if (at(s, middle) < level === isLow) low = middle
    else high = middle
  }
  return (low + high) / 2
}
