import { aberth } from './aberth.js'
import type { Evaluate, Roots } from './complex.js'
import { cubic } from './cubic.js'
import { realsOf } from './reals.js'

/**
 * Relative distance to which two nearly equal roots are moved apart. A double root would need terms `t·e^(st)`; two roots
 * this far apart give the same waveform to about 1e-11, and their difference still keeps ten digits.
 */
const apart = 3e-6

/** Roots nearer to each other than this part of their size lose digits to the rounding of the coefficients. */
const crowd = 0.03

/**
 * All roots of a polynomial with real coefficients of one sign (a passive circuit has no others): none has a positive real part
 * but for the last digits.
 *
 * @param p - coefficients from the constant upwards, first and last not 0
 * @param exact - the same polynomial from its factors: where roots crowd together its coefficients no longer tell them apart
 * @param isParted - whether nearly equal roots are moved apart
 */
export function rootsOf(p: readonly number[], exact: Evaluate, isParted: boolean): Roots {
  const { re, im } = found(p, exact, isParted)
  return { re: realsOf(re.length, (j) => re[j]!), im: realsOf(im.length, (j) => im[j]!) }
}

function found(p: readonly number[], exact: Evaluate, isParted: boolean): Roots {
  const degree = p.length - 1
  if (degree === 0) return { re: [], im: [] }
  if (degree === 1) return { re: [-p[0]! / p[1]!], im: [0] }
  if (degree === 2) return quadratic(p[0]!, p[1]!, p[2]!)
  if (degree === 3) {
    const three = cubic(p[0]!, p[1]!, p[2]!, p[3]!)
    if (!isCrowded(three, true)) return three
  }
  const z = aberth(p)
  if (isCrowded(z, false)) aberth(p, z, exact)
  return upperHalf(z, isParted)
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

/** Whether two roots are so near that the coefficients' rounding moves them. `isHalf`: of each pair only one is listed. */
function isCrowded({ re, im }: Roots, isHalf: boolean): boolean {
  for (let j = 0; j < re.length; j++) {
    const [x, y] = [re[j]!, im[j]!]
    const least = crowd * crowd * (x * x + y * y)
    if (isHalf && y !== 0 && 4 * y * y < least) return true
    for (let k = 0; k < j; k++) {
      const dx = x - re[k]!
      const dy = y - im[k]!
      if (dx * dx + dy * dy < least) return true
    }
  }
  return false
}

/** Keeps one of each conjugate pair, makes real what is real, and moves nearly equal roots apart. */
function upperHalf(z: Roots, isParted: boolean): Roots {
  const kept: { re: number; im: number }[] = []
  for (let j = 0; j < z.re.length; j++) {
    const [re, im] = [z.re[j]!, z.im[j]!]
    if (Math.abs(im) <= (isParted ? apart : 1e-13) * Math.abs(re)) kept.push({ re, im: 0 })
    else if (im > 0) kept.push({ re, im })
  }
  kept.sort((a, b) => a.re - b.re || a.im - b.im)
  for (let j = 1; isParted && j < kept.length; j++) {
    const [a, b] = [kept[j - 1]!, kept[j]!]
    const square = a.re * a.re + a.im * a.im
    const [x, y] = [a.re - b.re, a.im - b.im]
    if (x * x + y * y > 4 * apart * apart * square) continue
    const size = Math.sqrt(square)
    const [re, im] = [(a.re + b.re) / 2, (a.im + b.im) / 2]
    kept[j - 1] = { re: re - apart * size, im }
    kept[j] = { re: re + apart * size, im }
  }
  return { re: kept.map((s) => s.re), im: kept.map((s) => s.im) }
}
