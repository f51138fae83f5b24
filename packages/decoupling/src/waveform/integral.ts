import type { Signal } from './signal.js'

/** ∫ a(t)·b(t) dt over `0 <= t <= duration`, exact: products of polynomials and exponentials, term by term. */
export function integralOfProduct(a: Signal, b: Signal, duration: number): number {
  const p = [a.constant, a.slope, a.curve]
  const q = [b.constant, b.slope, b.curve]
  let sum = 0
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) sum += (p[i]! * q[j]! * duration ** (i + j + 1)) / (i + j + 1)
  }
  const left = terms(a)
  const right = terms(b)
  for (const t of left) sum += withPolynomial(t, q, duration)
  for (const t of right) sum += withPolynomial(t, p, duration)
  for (const t of left) {
    for (const u of right) {
      const [r, i] = moments(t.x + u.x, t.y + u.y, duration)[0]!
      sum += (t.re * u.re - t.im * u.im) * r - (t.re * u.im + t.im * u.re) * i
    }
  }
  return sum
}

interface Term {
  readonly re: number
  readonly im: number
  readonly x: number
  readonly y: number
}

/** Every exponential of a signal, conjugates included. */
function terms({ roots, re, im }: Signal): Term[] {
  const list: Term[] = []
  for (let j = 0; j < re.length; j++) {
    const [x, y] = [roots.re[j]!, roots.im[j]!]
    list.push({ re: re[j]!, im: im[j]!, x, y })
    if (y !== 0) list.push({ re: re[j]!, im: -im[j]!, x, y: -y })
  }
  return list
}

function withPolynomial({ re, im, x, y }: Term, p: readonly number[], duration: number): number {
  const m = moments(x, y, duration)
  let sum = 0
  for (let k = 0; k < 3; k++) sum += p[k]! * (re * m[k]![0] - im * m[k]![1])
  return sum
}

type Complex = readonly [re: number, im: number]

/** ∫ t^k·e^(st) dt over `0 <= t <= d` for k = 0, 1, 2, with s = x + iy. */
function moments(x: number, y: number, d: number): readonly Complex[] {
  if (Math.hypot(x, y) * d < 1) return [0, 1, 2].map((k) => series(x, y, d, k))
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
  let [tr, ti] = [d ** (k + 1), 0]
  let [r, i] = [tr / (k + 1), 0]
  for (let n = 1; n < 24; n++) {
    const next = ((tr * x - ti * y) * d) / n
    ti = ((tr * y + ti * x) * d) / n
    tr = next
    r += tr / (n + k + 1)
    i += ti / (n + k + 1)
  }
  return [r, i]
}
