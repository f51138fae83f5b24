import type { Roots } from '../modes/complex.js'
import { reals, realsOf } from '../modes/reals.js'

/**
 * A quantity over one piece of time, `t` from 0: `constant + slope·t + curve·t² + Σ amplitude·e^(root·t)`, a complex root
 * standing for its conjugate too. Exact for a linear circuit whose load current is a straight line.
 */
export interface Signal {
  readonly constant: number
  readonly slope: number
  readonly curve: number
  readonly roots: Roots
  /** Amplitudes, real and imaginary parts. */
  readonly re: readonly number[]
  readonly im: readonly number[]
}

/** The signal at time `t` of its piece, `t >= 0`. At infinity its limit, which may be infinite. */
export function at(s: Signal, t: number): number {
  if (t === Number.POSITIVE_INFINITY) {
    const growth = s.curve !== 0 ? s.curve : s.slope
    return growth === 0 ? s.constant : growth * t
  }
  let sum = s.constant + t * (s.slope + t * s.curve)
  for (let j = 0; j < s.re.length; j++) {
    const w = s.roots.im[j]!
    const decay = Math.exp(s.roots.re[j]! * t)
    if (w === 0) sum += s.re[j]! * decay
    else sum += 2 * decay * (s.re[j]! * Math.cos(w * t) - s.im[j]! * Math.sin(w * t))
  }
  return sum
}

/** Its rate of change, as a signal. */
export function derivative(s: Signal): Signal {
  const re = reals(s.re.length)
  const im = reals(s.re.length)
  for (let j = 0; j < s.re.length; j++) {
    const x = s.roots.re[j]!
    const y = s.roots.im[j]!
    re[j] = s.re[j]! * x - s.im[j]! * y
    im[j] = s.re[j]! * y + s.im[j]! * x
  }
  return { constant: s.slope, slope: 2 * s.curve, curve: 0, roots: s.roots, re, im }
}

/** The same with the opposite sign: its lowest point is the highest of `s`. */
export function negative(s: Signal): Signal {
  const { constant, slope, curve, roots, re, im } = s
  return {
    constant: -constant,
    slope: -slope,
    curve: -curve,
    roots,
    re: realsOf(re.length, (j) => -re[j]!),
    im: realsOf(im.length, (j) => -im[j]!),
  }
}

/** Sum of two signals of the same piece, `factor` times the second. Their roots must be the same list. */
export function plus(a: Signal, b: Signal, factor = 1): Signal {
  return {
    constant: a.constant + factor * b.constant,
    slope: a.slope + factor * b.slope,
    curve: a.curve + factor * b.curve,
    roots: a.roots,
    re: realsOf(a.re.length, (j) => a.re[j]! + factor * b.re[j]!),
    im: realsOf(a.im.length, (j) => a.im[j]! + factor * b.im[j]!),
  }
}

/** The same from a time on, counted from there. */
export function later(s: Signal, t: number): Signal {
  const { constant, slope, curve, roots, re, im } = s
  const turned = { re: reals(re.length), im: reals(re.length) }
  for (let j = 0; j < re.length; j++) {
    const decay = Math.exp(roots.re[j]! * t)
    const c = decay * Math.cos(roots.im[j]! * t)
    const d = decay * Math.sin(roots.im[j]! * t)
    turned.re[j] = re[j]! * c - im[j]! * d
    turned.im[j] = re[j]! * d + im[j]! * c
  }
  return { constant: constant + t * (slope + t * curve), slope: slope + 2 * t * curve, curve, roots, ...turned }
}

/** The largest value that the sum of the modes can have from time `t` on. */
export function envelope(s: Signal, t: number): number {
  let sum = 0
  for (let j = 0; j < s.re.length; j++) {
    const size = Math.sqrt(s.re[j]! * s.re[j]! + s.im[j]! * s.im[j]!)
    sum += (s.roots.im[j] === 0 ? 1 : 2) * size * Math.exp(s.roots.re[j]! * t)
  }
  return sum
}
