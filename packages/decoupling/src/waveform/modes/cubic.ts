import type { Roots } from './complex.js'

/**
 * Roots of `d + c·s + b·s² + a·s³`, all coefficients positive: Newton's method from beyond the root that stands alone, where it
 * can't turn round, then the quadratic that is left, divided out from the end that cancels nothing (Kahan, "To solve a
 * real cubic equation", Berkeley 1986). Of nearly equal roots only about half of the digits are right.
 */
export function cubic(d: number, c: number, b: number, a: number): Roots {
  let x = -b / (3 * a)
  let first = a * x + b
  let second = first * x + c
  const there = second * x + d
  // The lone root lies on the side of the inflection to which the value there points, at most this far.
  const side = there > 0 ? -1 : 1
  const slopeThere = (a * x + first) * x + second
  let next = x + side * 1.3248 * Math.max(Math.cbrt(Math.abs(there / a)), Math.sqrt(Math.max(0, -slopeThere / a)))
  if (next !== x) {
    do {
      x = next
      first = a * x + b
      second = first * x + c
      const slope = (a * x + first) * x + second
      next = slope === 0 ? x : x - (second * x + d) / slope
    } while (side * next < side * x)
    if (Math.abs(a * x * x * x) > Math.abs(d)) {
      second = -d / x
      first = (second - c) / x
    }
  }
  const middle = -first / (2 * a)
  const square = middle * middle - second / a
  if (square < 0) {
    const im = Math.sqrt(-square)
    return x < middle ? { re: [x, middle], im: [0, im] } : { re: [middle, x], im: [im, 0] }
  }
  const far = middle + (middle < 0 ? -1 : 1) * Math.sqrt(square)
  const near = second / a / far
  const low = Math.min(far, near)
  const high = Math.max(far, near)
  if (x < low) return { re: [x, low, high], im: [0, 0, 0] }
  return { re: x < high ? [low, x, high] : [low, high, x], im: [0, 0, 0] }
}
