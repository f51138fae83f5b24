import { earlyImpedance, impedanceBetween } from '../formulas/curves.js'

/** One point of a transient thermal impedance curve, single pulse. */
export interface ImpedancePoint {
  readonly seconds: number
  readonly kelvinPerWatt: number
}

/** A train of equal bursts. */
export interface Bursts {
  /** Length of one burst, s. */
  readonly on: number
  /** From the start of one burst to that of the next, s; not shorter than `on`. */
  readonly period: number
  /** How many, from cold. */
  readonly count: number
}

/**
 * Transient thermal impedance after `seconds` of constant power, K/W: straight in both logarithms between the points;
 * before the first it falls with the square root of time (heat spreading into a thick body; shorter pulses heat less
 * than that); from the last on it stays.
 */
export function impedanceAt(points: readonly ImpedancePoint[], seconds: number): number {
  if (seconds <= 0) return 0
  const first = points[0]!
  if (seconds <= first.seconds) {
    return earlyImpedance({ Z_1: first.kelvinPerWatt, t_1: first.seconds, t_p: seconds })
  }
  let i = 1
  while (i < points.length && points[i]!.seconds < seconds) i++
  if (i === points.length) return points[i - 1]!.kelvinPerWatt
  return lineThrough(points[i - 1]!, points[i]!, seconds)
}

/**
 * The most that it may be, K/W. A curve bends downwards in both logarithms, so between two points it lies above the
 * straight line and below the lines of its neighbours carried on; where it doesn't bend so, the straight line is kept. A
 * network of few rungs, whose curve has dents, may lie up to 1 % above.
 */
export function impedanceAtMost(points: readonly ImpedancePoint[], seconds: number): number {
  const straight = impedanceAt(points, seconds)
  let i = 0
  while (i < points.length && points[i]!.seconds < seconds) i++
  if (i === 0 || i === points.length) return straight
  const [before, a, b, after] = [points[i - 2], points[i - 1]!, points[i]!, points[i + 1]]
  const fromBelow = before
    ? lineThrough(before, a, seconds)
    : earlyImpedance({ Z_1: a.kelvinPerWatt, t_1: a.seconds, t_p: seconds })
  const fromAbove = after ? lineThrough(b, after, seconds) : b.kelvinPerWatt
  return Math.max(straight, Math.min(fromBelow, fromAbove))
}

/** The straight line through two points, carried on. */
const lineThrough = (one: ImpedancePoint, other: ImpedancePoint, t_p: number) =>
  impedanceBetween({
    Z_1: one.kelvinPerWatt,
    Z_2: other.kelvinPerWatt,
    t_1: one.seconds,
    t_2: other.seconds,
    t_p,
  })

/** Older bursts than this are added up as their mean power. */
const resolved = 128

/**
 * Effective impedance at the end of the last of repeated bursts, K/W: each burst is a step up and a later step down, and
 * steps add (superposition in a linear thermal path). The last weighs most: it is taken at most. No train heats more than
 * its last burst and the mean of all before it.
 */
export function burstImpedance(points: readonly ImpedancePoint[], { on, period, count }: Bursts): number {
  const last = impedanceAtMost(points, on)
  const mean = (on / period) * (impedanceAtMost(points, (count - 1) * period + on) - last)
  return last + Math.min(mean, beforeLast(points, { on, period, count }))
}

/**
 * What the bursts before the last leave at its end. The latest are added one by one, older ones as their mean power:
 * there the curve is nearly straight over a period.
 */
function beforeLast(points: readonly ImpedancePoint[], { on, period, count }: Bursts): number {
  let sum = 0
  const single = Math.min(count, resolved)
  for (let i = 1; i < single; i++) {
    sum += impedanceAt(points, i * period + on) - impedanceAt(points, i * period)
  }
  if (count <= resolved) return sum
  // From the middle of the gaps: the mean power lasts from half a gap before the first old burst on.
  const half = (period - on) / 2
  const from = resolved * period - half
  const to = count * period - half
  return sum + (on / period) * (impedanceAt(points, to) - impedanceAt(points, from))
}
