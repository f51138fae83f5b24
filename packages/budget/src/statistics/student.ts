import { InputError } from '@ohmward/quantity'
import { normalProbability, normalQuantile } from './normal.js'

/** Γ(a + ½) / Γ(a): its asymptotic series beyond 40, and below it the recurrence that leads there. */
function gammaRatio(a: number): number {
  let factor = 1
  let x = a
  for (; x < 40; x++) factor *= 1 + 0.5 / x
  const r = 1 / (8 * x)
  const series = 1 + r * (5 - (r / 4) * (21 + r * (399 - (r / 2) * (869 + r * 39325))))
  return (Math.sqrt(x) * (1 - r * (1 - (r / 2) * series))) / factor
}

/** Continued fraction of the incomplete beta function (Abramowitz and Stegun, 26.5.8), by Lentz's method. */
function betaFraction(a: number, b: number, x: number): number {
  let c = 1
  let d = 1 / (1 - ((a + b) * x) / (a + 1))
  let value = d
  for (let m = 1; m < 1e5; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / (1 + even * d)
    c = 1 + even / c
    value *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / (1 + odd * d)
    c = 1 + odd / c
    value *= d * c
    if (Math.abs(d * c - 1) < 2e-16) break
  }
  return value
}

/** For t ≥ 0: probability between 0 and t, probability beyond t, and density; whichever probability is small is the exact one. */
function around(t: number, dof: number): [central: number, tail: number, density: number] {
  const a = dof / 2
  const w = t / Math.sqrt(dof)
  const log = w > 1e8 ? 2 * Math.log(w) : Math.log1p(w * w)
  const scale = gammaRatio(a) / Math.sqrt(Math.PI)
  const density = (scale / Math.sqrt(dof)) * Math.exp(-(a + 0.5) * log)
  const x = 1 / (1 + w * w)
  const front = scale * Math.exp(-a * log) * Math.sqrt(1 - x)
  if (x < (a + 1) / (a + 2.5)) {
    const tail = (front / dof) * betaFraction(a, 0.5, x)
    return [0.5 - tail, tail, density]
  }
  const y = (w * w) / (1 + w * w)
  const central = scale * Math.exp(-a * log) * Math.sqrt(y) * betaFraction(0.5, a, y)
  return [central, 0.5 - central, density]
}

const checkDegrees = (degreesOfFreedom: number): void => {
  if (!(typeof degreesOfFreedom === 'number' && degreesOfFreedom >= 1e-6)) {
    throw new InputError({ field: 'degreesOfFreedom', value: degreesOfFreedom, allowed: 'at least 1e-6' })
  }
}

/**
 * Probability that a variable of Student's t distribution is at most `t`.
 *
 * @param degreesOfFreedom - more than 0, fractions welcome, `Infinity` for the normal distribution
 * @throws InputError for other degrees of freedom, and a `t` that is no number
 */
export function studentProbability(t: number, degreesOfFreedom: number): number {
  checkDegrees(degreesOfFreedom)
  if (typeof t !== 'number' || Number.isNaN(t)) throw new InputError({ field: 't', value: t, allowed: 'a number' })
  const v = degreesOfFreedom
  // Beyond a million the Cornish-Fisher terms are exact to rounding; the fraction would need thousands of steps.
  if (v > 1e6)
    return normalProbability(t - (t * (t * t + 1)) / (4 * v) + (t * (13 * t ** 4 + 8 * t * t + 3)) / (96 * v * v))
  const [central, tail] = around(Math.abs(t), v)
  return t < 0 ? tail : 0.5 + central
}

/** Cornish-Fisher expansion of the quantile (Abramowitz and Stegun, 26.7.5), from the normal quantile. */
function expansion(z: number, v: number): number {
  const q = z * z
  const first = (q + 1) / 4
  const second = ((5 * q + 16) * q + 3) / 96
  const third = (((3 * q + 19) * q + 17) * q - 15) / 384
  return z * (1 + (first + (second + third / v) / v) / v)
}

/**
 * Quantile of Student's t distribution: the coverage factor for a level of confidence `level` is
 * `studentQuantile((1 + level) / 2, degreesOfFreedom)` (JCGM 100:2008, annex G).
 *
 * @param p - probability, 0 and 1 excluded
 * @param degreesOfFreedom - more than 0, fractions welcome, `Infinity` for the normal distribution
 * @throws InputError for anything else, and where the quantile is too large for a number
 */
export function studentQuantile(p: number, degreesOfFreedom: number): number {
  checkDegrees(degreesOfFreedom)
  const z = normalQuantile(p)
  const v = degreesOfFreedom
  if (v > 1e5) return expansion(z, v)
  const wanted = p < 0.5 ? p : 1 - p
  let t = 0
  if (wanted > 0.25) {
    // The probability is concave in t: from 0, Newton's method approaches from below.
    for (let n = 0, step = 1; n < 60 && Math.abs(step) > 1e-16 * t; n++) {
      const [central, , density] = around(t, v)
      step = (Math.abs(p - 0.5) - central) / density
      t += step
    }
  } else {
    // The tail is concave in doubly logarithmic scales: after one step Newton's method approaches from above.
    t = Math.abs(v < 3 ? z : expansion(z, v))
    for (let n = 0, step = 1; n < 60 && Math.abs(step) > 2e-16; n++) {
      const [, tail, density] = around(t, v)
      step = ((Math.log(tail) - Math.log(wanted)) * tail) / (t * density)
      t *= Math.exp(step)
    }
  }
  if (!Number.isFinite(t)) {
    throw new InputError({ field: 'degreesOfFreedom', value: v, allowed: `enough for a finite quantile at p = ${p}` })
  }
  return p < 0.5 ? -t : t
}
