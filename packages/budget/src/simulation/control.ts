import type { Plan, Watch } from './plan.js'

/**
 * The control: a straight line through the model, as a sum of the very random numbers that make the inputs. Its
 * distribution is known (a normal distribution and rectangles, convolved), so what the drawn points make of it tells
 * how far they stand from where they should (J. C. Hsu, B. L. Nelson, Management Science 36 (1990) 835). Any line is a
 * valid control; a good one only saves points.
 */
export interface Control {
  /** Writes the control of the rows that are drawn next to `out`, from `from` on. */
  watch(out: Float64Array, from: number): Watch
  readonly variance: number
  /** Value that the control stays below with probability `p`. */
  quantile(p: number): number
}

interface Term {
  readonly on: 'drawn' | 'valued'
  readonly factor: number
  readonly middle: number
}

/** Width of the rectangle that follows an arcsine distribution best, over that distribution's: covariance with the uniform number over its variance. */
const ARCSINE = 1.2158542037080533

/** Nothing where the model has no slope anywhere: a control that doesn't move is none. */
export function controlOf({ shapes, slopes, bundles, correlated, factor }: Plan): Control | undefined {
  const terms: Term[] = []
  const halves: number[] = []
  let normal = 0
  for (const { members, normal: isNormal } of bundles) {
    const k = members[0]!
    const { kind, middle, half, scale, top, degreesOfFreedom } = shapes[k]!
    const sum = members.reduce((total, m) => total + Math.abs(slopes[m]!), 0) * (slopes[k]! < 0 ? -1 : 1)
    const alone = members.length === 1
    if (isNormal) {
      const factor = alone ? sum * (1 + 1 / degreesOfFreedom) : sum
      terms.push({ on: 'drawn', factor, middle: 0 })
      normal += factor * factor
    } else if (alone && (kind === 'triangular' || kind === 'trapezoidal')) {
      const factor = sum / scale
      terms.push({ on: 'valued', factor, middle })
      halves.push(((1 + top) / 2) * half * factor, ((1 - top) / 2) * half * factor)
    } else {
      const width = alone && kind === 'arcsine' ? (sum / scale) * half * ARCSINE : sum * Math.sqrt(3)
      terms.push({ on: 'drawn', factor: 2 * width, middle: 0.5 })
      halves.push(width)
    }
  }
  for (let j = 0; j < Math.max(0, ...factor.map((row) => row.length)); j++) {
    const weight = correlated.reduce((total, k, row) => total + slopes[k]! * (factor[row]![j] ?? 0), 0)
    terms.push({ on: 'drawn', factor: weight, middle: 0 })
    normal += weight * weight
  }
  const variance = halves.reduce((total, w) => total + (w * w) / 3, normal)
  if (!(variance > 0)) return undefined
  const add = (out: Float64Array, from: number, on: Term['on']) => (index: number, column: Float64Array, n: number) => {
    const { factor, middle, on: when } = terms[index]!
    if (when !== on) return
    for (let i = 0; i < n; i++) out[from + i] = out[from + i]! + factor * (column[i]! - middle)
  }
  return {
    variance,
    quantile: quantiles(
      normal,
      halves.map(Math.abs).filter((w) => w > 0),
      variance,
    ),
    watch: (out, from) => ({ drawn: add(out, from, 'drawn'), valued: add(out, from, 'valued') }),
  }
}

/** Points of the table of the distribution function. */
const POINTS = 1024

/**
 * Quantiles of a sum of a normal deviate of variance `normal` and of rectangular ones of half-widths `halves`: the
 * distribution function on a grid, averaged over one rectangle after the other.
 */
function quantiles(normal: number, halves: readonly number[], variance: number): (p: number) => number {
  const wide: number[] = []
  let gauss = normal
  // What makes less than 0.2 % of the variance is as good as normal beside a normal part.
  for (const w of halves) {
    if (normal > 0.01 * variance && (w * w) / 3 < 0.002 * variance) gauss += (w * w) / 3
    else wide.push(w)
  }
  if (gauss > 0 && gauss < 0.01 * variance) {
    wide.push(Math.sqrt(3 * gauss))
    gauss = 0
  }
  const sigma = Math.sqrt(gauss)
  wide.sort((a, b) => b - a)
  const end = Math.min(
    wide.reduce((sum, w) => sum + w, 7 * sigma),
    9 * Math.sqrt(variance),
  )
  const step = (2 * end) / (POINTS - 1)
  const first = sigma === 0 ? wide.shift()! : 0
  let values = new Float64Array(POINTS)
  let density = 0
  for (let i = 1; i < POINTS; i++) {
    const x = i * step - end
    if (sigma > 0) {
      const next = Math.exp((-x * x) / (2 * gauss)) / (sigma * Math.sqrt(2 * Math.PI))
      values[i] = values[i - 1]! + ((density + next) / 2) * step
      density = next
    } else values[i] = Math.min(1, Math.max(0, (x + first) / (2 * first)))
  }
  for (const w of wide) values = averaged(values, w / step)
  return (p) => {
    let low = 0
    let high = POINTS - 1
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (values[middle]! < p) low = middle
      else high = middle
    }
    const rise = values[high]! - values[low]!
    return (low + (rise > 0 ? (p - values[low]!) / rise : 0)) * step - end
  }
}

/** The mean of a distribution function over `half` steps to either side of every point: the integral of straight pieces. */
function averaged(values: Float64Array, half: number): Float64Array<ArrayBuffer> {
  const last = POINTS - 1
  const sums = new Float64Array(POINTS)
  for (let i = 1; i < POINTS; i++) sums[i] = sums[i - 1]! + (values[i - 1]! + values[i]!) / 2
  const whole = Math.floor(half)
  const d = half - whole
  const e = 1 - d
  const result = new Float64Array(POINTS)
  for (let i = 0; i < POINTS; i++) {
    const above = i + whole
    const below = i - whole - 1
    let area = above < last ? 0 : sums[last]! + i + half - last
    if (above < last) area = sums[above]! + d * (values[above]! + (d / 2) * (values[above + 1]! - values[above]!))
    if (below >= 0) area -= sums[below]! + e * (values[below]! + (e / 2) * (values[below + 1]! - values[below]!))
    result[i] = area / (2 * half)
  }
  return result
}
