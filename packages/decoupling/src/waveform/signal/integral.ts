import type { Signal } from './signal.js'

/** ∫ a(t)·b(t) dt over `0 <= t <= duration`, exact: products of polynomials and exponentials, term by term. */
export function integralOfProduct(a: Signal, b: Signal, duration: number): number {
  let sum = ofPolynomials(a, b, duration) + ofModes(a, b, duration) + ofModes(b, a, duration)
  for (let j = 0; j < a.re.length; j++) {
    const ar = a.re[j]!
    const ai = a.im[j]!
    const ax = a.roots.re[j]!
    const ay = a.roots.im[j]!
    for (let k = 0; k < b.re.length; k++) {
      const br = b.re[k]!
      const bi = b.im[k]!
      const bx = b.roots.re[k]!
      const by = b.roots.im[k]!
      // A complex mode stands for its conjugate too: twice the real part of its product with the other, and with its conjugate.
      const both = exponential(ar * br - ai * bi, ar * bi + ai * br, ax + bx, ay + by, duration)
      if (ay === 0 || by === 0) sum += ay === by ? both : 2 * both
      else sum += 2 * both + 2 * exponential(ar * br + ai * bi, ai * br - ar * bi, ax + bx, ay - by, duration)
    }
  }
  return sum
}

/** Real and imaginary part for two modes, for one with the other's conjugate, and for one. */
const ofSum = [0.5, 0.5]
const ofDifference = [0.5, 0.5]

/**
 * ∫ s(t)² dt over `0 <= t <= duration` of several signals with the same modes, added to `sums`: what a pair of modes comes to is worked
 * out once for all of them.
 */
export function addSquares(signals: readonly Signal[], duration: number, sums: number[]): void {
  for (let i = 0; i < signals.length; i++) {
    const s = signals[i]!
    sums[i]! += ofPolynomials(s, s, duration) + 2 * ofModes(s, s, duration)
  }
  const { roots } = signals[0]!
  const n = roots.re.length
  for (let j = 0; j < n; j++) {
    const y = roots.im[j]!
    for (let k = 0; k <= j; k++) {
      const v = roots.im[k]!
      const x = roots.re[j]! + roots.re[k]!
      // Each pair comes twice, but for a mode with itself; and so does each that has a conjugate.
      const times = (j === k ? 1 : 2) * (y !== 0 || v !== 0 ? 2 : 1)
      const isDouble = y !== 0 && v !== 0
      integrate(x, y + v, duration, ofSum)
      if (isDouble) integrate(x, y - v, duration, ofDifference)
      else ofDifference[0] = ofDifference[1] = 0
      for (let i = 0; i < signals.length; i++) {
        const { re, im } = signals[i]!
        const a = re[j]!
        const b = im[j]!
        const c = re[k]!
        const d = im[k]!
        const both = (a * c - b * d) * ofSum[0]! - (a * d + b * c) * ofSum[1]!
        sums[i]! += times * (both + (a * c + b * d) * ofDifference[0]! - (b * c - a * d) * ofDifference[1]!)
      }
    }
  }
}

/** Of the two polynomials. */
function ofPolynomials(a: Signal, b: Signal, d: number): number {
  const square = a.constant * b.curve + a.slope * b.slope + a.curve * b.constant
  const cube = a.slope * b.curve + a.curve * b.slope
  const linear = a.constant * b.slope + a.slope * b.constant
  return (
    d * (a.constant * b.constant + d * (linear / 2 + d * (square / 3 + d * (cube / 4 + (d * a.curve * b.curve) / 5))))
  )
}

/** Of one signal's modes with the other's polynomial. */
function ofModes({ re, im, roots }: Signal, { constant, slope, curve }: Signal, d: number): number {
  let sum = 0
  for (let j = 0; j < re.length; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
    let one = constant === 0 ? 0 : constant * exponential(re[j]!, im[j]!, x, y, d)
    if (slope !== 0 || curve !== 0) {
      const [, first, second] = moments(x, y, d)
      one += slope * (re[j]! * first[0] - im[j]! * first[1]) + curve * (re[j]! * second[0] - im[j]! * second[1])
    }
    sum += y === 0 ? one : 2 * one
  }
  return sum
}

const whole = [0.5, 0.5]

/** Real part of `(re + i·im)·∫ e^(st) dt` over `0 <= t <= d`, with s = x + iy. */
function exponential(re: number, im: number, x: number, y: number, d: number): number {
  integrate(x, y, d, whole)
  return re * whole[0]! - im * whole[1]!
}

/** ∫ e^(st) dt over `0 <= t <= d`, with s = x + iy: without a difference of nearly equal numbers. */
function integrate(x: number, y: number, d: number, into: number[]): void {
  if (y === 0) {
    into[0] = x === 0 ? d : Math.expm1(x * d) / x
    into[1] = 0
    return
  }
  const half = Math.sin((y * d) / 2)
  const grown = Math.expm1(x * d)
  const p = grown * Math.cos(y * d) - 2 * half * half
  const q = (grown + 1) * Math.sin(y * d)
  const square = x * x + y * y
  into[0] = (p * x + q * y) / square
  into[1] = (q * x - p * y) / square
}

type Complex = readonly [re: number, im: number]

/** ∫ t^k·e^(st) dt over `0 <= t <= d` for k = 0, 1, 2, with s = x + iy. */
function moments(x: number, y: number, d: number): readonly [Complex, Complex, Complex] {
  if (Math.hypot(x, y) * d < 1) return [series(x, y, d, 0), series(x, y, d, 1), series(x, y, d, 2)]
  const decay = Math.exp(x * d)
  const end: Complex = [decay * Math.cos(y * d), decay * Math.sin(y * d)]
  const over = ([r, i]: Complex): Complex => {
    const size = x * x + y * y
    return [(r * x + i * y) / size, (i * x - r * y) / size]
  }
  const zero = over([end[0] - 1, end[1]])
  const one = over([d * end[0] - zero[0], d * end[1] - zero[1]])
  const two = over([d * d * end[0] - 2 * one[0], d * d * end[1] - 2 * one[1]])
  return [zero, one, two]
}

/** The same by the exponential's series, where the closed form would cancel. */
function series(x: number, y: number, d: number, k: number): Complex {
  const first = d ** (k + 1)
  let tr = first
  let ti = 0
  let r = tr / (k + 1)
  let i = 0
  for (let n = 1; n < 24 && Math.abs(tr) + Math.abs(ti) > 1e-18 * first; n++) {
    const next = ((tr * x - ti * y) * d) / n
    ti = ((tr * y + ti * x) * d) / n
    tr = next
    r += tr / (n + k + 1)
    i += ti / (n + k + 1)
  }
  return [r, i]
}
