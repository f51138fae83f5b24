import type { Signal } from './signal.js'

/** ∫ a(t)·b(t) dt over `0 <= t <= duration`, exact: products of polynomials and exponentials, term by term. */
export function integralOfProduct(a: Signal, b: Signal, duration: number): number {
  let sum = ofPolynomials(a, b, duration) + ofModes(a, b, duration) + ofModes(b, a, duration)
  for (let j = 0; j < a.re.length; j++) {
    const [ar, ai, ax, ay] = [a.re[j]!, a.im[j]!, a.roots.re[j]!, a.roots.im[j]!]
    for (let k = 0; k < b.re.length; k++) {
      const [br, bi, bx, by] = [b.re[k]!, b.im[k]!, b.roots.re[k]!, b.roots.im[k]!]
      // A complex mode stands for its conjugate too: twice the real part of its product with the other, and with its conjugate.
      const both = exponential(ar * br - ai * bi, ar * bi + ai * br, ax + bx, ay + by, duration)
      if (ay === 0 || by === 0) sum += ay === by ? both : 2 * both
      else sum += 2 * both + 2 * exponential(ar * br + ai * bi, ai * br - ar * bi, ax + bx, ay - by, duration)
    }
  }
  return sum
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
    const [x, y] = [roots.re[j]!, roots.im[j]!]
    let one = constant * exponential(re[j]!, im[j]!, x, y, d)
    if (slope !== 0 || curve !== 0) {
      const [, first, second] = moments(x, y, d)
      one += slope * (re[j]! * first[0] - im[j]! * first[1]) + curve * (re[j]! * second[0] - im[j]! * second[1])
    }
    sum += y === 0 ? one : 2 * one
  }
  return sum
}

/** Real part of `(re + i·im)·∫ e^(st) dt` over `0 <= t <= d`, with s = x + iy: without a difference of nearly equal numbers. */
function exponential(re: number, im: number, x: number, y: number, d: number): number {
  if (y === 0) return re * (x === 0 ? d : Math.expm1(x * d) / x)
  const half = Math.sin((y * d) / 2)
  const grown = Math.expm1(x * d)
  const p = grown * Math.cos(y * d) - 2 * half * half
  const q = (grown + 1) * Math.sin(y * d)
  return (re * (p * x + q * y) - im * (q * x - p * y)) / (x * x + y * y)
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
