import type { Evaluate } from './complex.js'

interface Points {
  readonly re: number[]
  readonly im: number[]
}

/**
 * All roots of a polynomial by the simultaneous iteration of Aberth (1973).
 *
 * @param p - coefficients from the constant upwards, first and last not 0
 * @param z - points to begin with, and the place of the answer; on circles by the Newton polygon unless given
 * @param exact - the polynomial's value from its factors, where it has them
 */
export function aberth(p: readonly number[], z: Points = startingPoints(p), exact?: Evaluate): Points {
  const isDone = z.re.map(() => false)
  for (let round = exact ? 160 : 0; round < 200 && isDone.includes(false); round++) {
    for (let j = 0; j < isDone.length; j++) if (!isDone[j]) isDone[j] = improve(p, z, j, exact)
  }
  return z
}

/** One step for root `j`; whether it no longer moves, or the value there is lost in the rounding of its terms. */
function improve(p: readonly number[], z: Points, j: number, exact?: Evaluate): boolean {
  const x = z.re[j]!
  const y = z.im[j]!
  let fr = 0
  let fi = 0
  let dr = 0
  let di = 0
  let terms = 0
  const distance = Math.sqrt(x * x + y * y)
  for (let k = p.length - 1; k >= 0; k--) {
    terms = terms * distance + Math.abs(p[k]!)
    const t = dr * x - di * y + fr
    di = dr * y + di * x + fi
    dr = t
    const u = fr * x - fi * y + p[k]!
    fi = fr * y + fi * x
    fr = u
  }
  if (exact) [fr, fi] = exact(x, y) as [number, number]
  const size = dr * dr + di * di
  if (size === 0) return true
  const nr = (fr * dr + fi * di) / size
  const ni = (fi * dr - fr * di) / size
  let sr = 0
  let si = 0
  // The root itself adds nothing.
  for (let k = 0; k < z.re.length; k++) {
    const a = x - z.re[k]!
    const b = y - z.im[k]!
    const d = a * a + b * b || Number.MIN_VALUE
    sr += a / d
    si -= b / d
  }
  const qr = 1 - (nr * sr - ni * si)
  const qi = -(nr * si + ni * sr)
  const q = qr * qr + qi * qi || Number.MIN_VALUE
  const mr = (nr * qr + ni * qi) / q
  const mi = (ni * qr - nr * qi) / q
  z.re[j] = x - mr
  z.im[j] = y - mi
  const isLost = exact === undefined && fr * fr + fi * fi <= 4e-32 * terms * terms
  return isLost || mr * mr + mi * mi <= 4e-32 * (x * x + y * y)
}

/**
 * Starting points on circles, their radii from the upper hull of (k, log |p_k|), as many on each as roots are near it (Bini,
 * 1996).
 */
function startingPoints(p: readonly number[]): Points {
  const logs = p.map((c) => (c === 0 ? Number.NEGATIVE_INFINITY : Math.log(Math.abs(c))))
  const hull: number[] = []
  for (let k = 0; k < p.length; k++) {
    if (logs[k] === Number.NEGATIVE_INFINITY) continue
    while (hull.length > 1) {
      const [a, b] = [hull.at(-2)!, hull.at(-1)!]
      if ((logs[b]! - logs[a]!) * (k - a) > (logs[k]! - logs[a]!) * (b - a)) break
      hull.pop()
    }
    hull.push(k)
  }
  const z: Points = { re: [], im: [] }
  for (let h = 1; h < hull.length; h++) {
    const [from, to] = [hull[h - 1]!, hull[h]!]
    const radius = Math.exp((logs[from]! - logs[to]!) / (to - from))
    for (let k = 0; k < to - from; k++) {
      const angle = (2 * Math.PI * k) / (to - from) + Math.PI * 0.87 + 0.1 * h
      z.re.push(radius * Math.cos(angle))
      z.im.push(radius * Math.sin(angle))
    }
  }
  return z
}
