/** Complex numbers side by side: `re[j] + i·im[j]`. Of a conjugate pair only the one with a positive imaginary part is kept. */
export interface Roots {
  readonly re: readonly number[]
  readonly im: readonly number[]
}

/**
 * Relative distance to which two nearly equal roots are moved apart. A double root would need terms `t·e^(st)`; two roots
 * this far apart give the same waveform to about 1e-11, and their difference still keeps ten digits.
 */
const apart = 3e-6

/**
 * All roots of a polynomial with real coefficients of one sign (a passive circuit has no others): none has a positive real part
 * but for the last digits.
 *
 * @param p - coefficients from the constant upwards, first and last not 0
 * @param exact - the same polynomial from its factors: where roots crowd together its coefficients no longer tell them apart
 * @param isParted - whether nearly equal roots are moved apart
 */
export function rootsOf(p: readonly number[], exact: Evaluate, isParted: boolean): Roots {
  const degree = p.length - 1
  if (degree === 0) return { re: [], im: [] }
  if (degree === 1) return { re: [-p[0]! / p[1]!], im: [0] }
  if (degree === 2) return quadratic(p[0]!, p[1]!, p[2]!)
  return upperHalf(aberth(p, exact), isParted)
}

/** Roots of `c + b·s + a·s²`, `a` and `c` positive, `b` not negative. */
function quadratic(c: number, b: number, a: number): Roots {
  const middle = -b / (2 * a)
  const product = c / a
  const square = middle * middle - product
  const least = apart * apart * product
  if (square > least) {
    const far = middle - Math.sqrt(square)
    return { re: [far, product / far], im: [0, 0] }
  }
  if (square < -least) return { re: [middle], im: [Math.sqrt(-square)] }
  return { re: [middle * (1 + apart), middle * (1 - apart)], im: [0, 0] }
}

/** Value of a polynomial at `x + iy`. */
export type Evaluate = (x: number, y: number) => readonly [re: number, im: number]

interface Points {
  readonly re: number[]
  readonly im: number[]
}

/** Simultaneous iteration of Aberth (1973) from starting points on circles by the Newton polygon (Bini, 1996). */
function aberth(p: readonly number[], exact: Evaluate): Points {
  const n = p.length - 1
  const z = startingPoints(p)
  const isDone = new Array<boolean>(n).fill(false)
  for (let round = 0; round < 200 && isDone.includes(false); round++) {
    for (let j = 0; j < n; j++) if (!isDone[j]) isDone[j] = improve(p, z, j)
  }
  if (!isCrowded(z)) return z
  isDone.fill(false)
  for (let round = 0; round < 40 && isDone.includes(false); round++) {
    for (let j = 0; j < n; j++) if (!isDone[j]) isDone[j] = improve(p, z, j, exact)
  }
  return z
}

/** Whether two roots are so near that the coefficients' rounding moves them. */
function isCrowded(z: Points): boolean {
  for (let j = 1; j < z.re.length; j++) {
    for (let k = 0; k < j; k++) {
      const distance = Math.hypot(z.re[j]! - z.re[k]!, z.im[j]! - z.im[k]!)
      if (distance < 0.03 * Math.hypot(z.re[j]!, z.im[j]!)) return true
    }
  }
  return false
}

/** One step for root `j`; whether it no longer moves. */
function improve(p: readonly number[], z: Points, j: number, exact?: Evaluate): boolean {
  const x = z.re[j]!
  const y = z.im[j]!
  let [fr, fi, dr, di] = [0, 0, 0, 0]
  for (let k = p.length - 1; k >= 0; k--) {
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
  let [sr, si] = [0, 0]
  for (let k = 0; k < z.re.length; k++) {
    if (k === j) continue
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
  return Math.hypot(mr, mi) <= 2e-16 * Math.hypot(x, y)
}

/** Radii from the upper hull of (k, log |p_k|): as many starting points on each circle as roots are near it. */
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

/** Keeps one of each conjugate pair, makes real what is real, and moves nearly equal roots apart. */
function upperHalf(z: Points, isParted: boolean): Roots {
  const kept: { re: number; im: number }[] = []
  for (let j = 0; j < z.re.length; j++) {
    const [re, im] = [z.re[j]!, z.im[j]!]
    if (Math.abs(im) <= (isParted ? apart : 1e-13) * Math.abs(re)) kept.push({ re, im: 0 })
    else if (im > 0) kept.push({ re, im })
  }
  kept.sort((a, b) => a.re - b.re || a.im - b.im)
  for (let j = 1; isParted && j < kept.length; j++) {
    const [a, b] = [kept[j - 1]!, kept[j]!]
    const size = Math.hypot(a.re, a.im)
    if (Math.hypot(a.re - b.re, a.im - b.im) > 2 * apart * size) continue
    const [re, im] = [(a.re + b.re) / 2, (a.im + b.im) / 2]
    kept[j - 1] = { re: re - apart * size, im }
    kept[j] = { re: re + apart * size, im }
  }
  return { re: kept.map((s) => s.re), im: kept.map((s) => s.im) }
}
