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
  /** From the begin of one burst to that of the next, s; not shorter than `on`. */
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
  const a = points[i - 1]!
  const b = points[i]!
  return impedanceBetween({
    Z_1: a.kelvinPerWatt,
    Z_2: b.kelvinPerWatt,
    t_1: a.seconds,
    t_2: b.seconds,
    t_p: seconds,
  })
}

/** Older bursts than this are added up as their mean power. */
const resolved = 128

/**
 * Effective impedance at the end of the last of repeated bursts, K/W: each burst is a step up and a later step down, and
 * steps add (superposition in a linear thermal path). The last 128 bursts are added one by one, older ones as
 * their mean power: there the curve is nearly straight over a period.
 */
export function burstImpedance(points: readonly ImpedancePoint[], { on, period, count }: Bursts): number {
  let sum = 0
  const single = Math.min(count, resolved)
  for (let i = 0; i < single; i++) {
    sum += impedanceAt(points, i * period + on) - impedanceAt(points, i * period)
  }
  if (count <= resolved) return sum
  // From the middle of the gaps: the mean power lasts from half a gap before the first old burst on.
  const half = (period - on) / 2
  const from = resolved * period - half
  const to = count * period - half
  return sum + (on / period) * (impedanceAt(points, to) - impedanceAt(points, from))
}
