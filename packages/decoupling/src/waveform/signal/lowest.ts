import { InputError } from '@ohmward/quantity'
import { effort } from '../effort.js'
import { at, envelope, type Signal } from './signal.js'
import { onlyBottom } from './stationary.js'
import { Walk } from './walk.js'
import { onlyZero } from './zero.js'

/** Steps along one signal: a ringing that hardly dies in a long time would take any number. */
const [mostSteps, fewSteps] = [20_000, 200]

const followable = 'parts whose natural times, with those of source and load, lie near enough together to be followed'

/**
 * Where a signal is lowest in `0 <= t <= duration`, and how low. Global: by proof, not by sampling.
 *
 * @throws InputError where rounding leaves the signal no finite size
 */
export function lowest(s: Signal, duration: number): { time: number; value: number } {
  return lowestUnder(s, duration, Number.POSITIVE_INFINITY)!
}

/** The same where it lies below a value; undefined where the signal nowhere comes below it. */
export function lowestUnder(
  s: Signal,
  duration: number,
  most: number,
): { readonly time: number; readonly value: number } | undefined {
  const start = at(s, 0)
  if (!Number.isFinite(start)) throw new InputError({ field: 'capacitors', value: 'as they are', allowed: followable })
  const end = at(s, duration)
  let time = start <= end ? 0 : duration
  let value = Math.min(start, end)
  const bottom = onlyBottom(s, duration)
  if (bottom === undefined) {
    const walk = new Walk(s, horizonOf(s, duration, value))
    const gap = 1e-12 * envelope(s, 0) + 1e-15 * Math.abs(value)
    let left = effort.most(mostSteps, fewSteps)
    while (walk.next(Math.min(value, most) - gap)) {
      if (walk.value < value) {
        value = walk.value
        time = walk.time
      }
      if (--left > 0) continue
      // Nothing that is left comes below this.
      effort.isBounded = true
      if (walk.least < value) {
        value = walk.least
        time = walk.time
      }
      break
    }
    effort.spend(walk.steps * s.re.length)
  } else if (bottom > 0) {
    const there = at(s, bottom)
    if (there < value) {
      value = there
      time = bottom
    }
  }
  return value < most ? { time, value } : undefined
}

/** What a signal, or with `sign` -1 its opposite, can't come below: its line less all that its modes can take away. */
export function leastPossible(s: Signal, duration: number, sign: 1 | -1): number {
  let sum = sign * s.constant
  if (s.slope !== 0 || s.curve !== 0) {
    if (duration === Number.POSITIVE_INFINITY) return Number.NEGATIVE_INFINITY
    // A parabola that opens upwards hangs below its ends by no more than this.
    const hangs = Math.max(0, sign * s.curve) * (duration / 2) ** 2
    sum += Math.min(0, sign * duration * (s.slope + duration * s.curve)) - hangs
  }
  for (let j = 0; j < s.re.length; j++) {
    const a = sign * s.re[j]!
    const b = s.im[j]!
    if (s.roots.im[j] !== 0) sum -= 2 * Math.sqrt(a * a + b * b)
    else if (a < 0) sum += a
  }
  return sum
}

/** An end to walk to: a line that falls for ever is below a level before infinity. A parabola has an end: a load that changes does. */
function horizonOf(s: Signal, duration: number, level: number): number {
  if (duration < Number.POSITIVE_INFINITY || s.slope >= 0) return duration
  return (1.001 * Math.max(0, s.constant + envelope(s, 0) - level)) / -s.slope
}

/**
 * The first time at which a signal is below `level`, or `null` when it stays at or above it for the whole duration. It must not
 * be below at time 0 by more than `gap`; a touch by less than `gap` doesn't count.
 */
export function firstBelow(s: Signal, level: number, duration: number, gap: number): number | null {
  const floor = level - gap
  const walk = new Walk(s, horizonOf(s, duration, floor))
  if (walk.value < floor) return 0
  const most = effort.most(mostSteps, fewSteps)
  let found: number | null = null
  for (let from = 0; walk.next(floor); from = walk.time) {
    if (walk.value < floor) {
      found = crossing(walk, floor, from, walk.time)
      break
    }
    if (walk.steps < most) continue
    effort.isOpen = true
    break
  }
  effort.spend(walk.steps * s.re.length)
  return found
}

/** The last time at which a signal is below `level`, or `null`; it must not be below at the end. */
export function lastBelow(s: Signal, level: number, duration: number, gap: number): number | null {
  const floor = level - gap
  if (s.slope === 0 && s.roots.im.every((y) => y === 0)) {
    // From its one lowest point on it only rises, if it is ever below; otherwise it never turns upwards from below.
    const bottom = onlyBottom(s, duration)
    if (bottom !== undefined) {
      return at(s, bottom) < floor ? onlyZero(s.constant - floor, s.re, s.roots.re, bottom, duration) : null
    }
  }
  const walk = new Walk(s, horizonOf(s, duration, floor))
  let last: readonly [number, number] | null = null
  let [from, isBelow] = [0, walk.value < floor]
  const most = effort.most(mostSteps, fewSteps)
  while (walk.next(floor)) {
    if (isBelow && walk.value >= floor) last = [from, walk.time]
    from = walk.time
    isBelow = walk.value < floor
    if (walk.steps < most) continue
    effort.isOpen = true
    break
  }
  effort.spend(walk.steps * s.re.length)
  if (isBelow) return from
  return last && crossing(walk, floor, ...last)
}

/** Where a signal passes a level, between two times at which it is on different sides of it and which it passes once. */
function crossing(walk: Walk, level: number, from: number, to: number): number {
  let [low, high] = [from, to]
  walk.to(from)
  const isBelow = walk.value < level
  let next = from - (walk.value - level) / walk.slope
  for (let round = 0; round < 80; round++) {
    if (!(next > low && next < high)) next = (low + high) / 2
    walk.to(next)
    if (walk.value < level === isBelow) low = next
    else high = next
    const moved = (level - walk.value) / walk.slope
    next += moved
    if (Math.abs(moved) <= 1e-12 * next || high - low <= 1e-14 * high) break
  }
  return Math.min(Math.max(next, low), high)
}
