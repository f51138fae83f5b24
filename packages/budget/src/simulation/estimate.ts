import { sortTails } from '../sampling/interval.js'
import type { Control } from './control.js'
import type { Settings } from './options.js'
import { type Found, meanAndDeviation, shareWithin } from './summary.js'

/** With fewer values beyond it, nothing is known of an end: its error counts as large as `u`. */
const FEWEST = 20

/** Places at which the shortest interval is looked for: every rank of the tails up to so many, the best then from near by. */
const [FEW, MANY] = [40, 2000]

/** What a stage finds; the error of the shortest interval is only told at the end. */
type Estimate = Omit<Found, 'shortestError'>

/** What stands to be told from values of shifted lattices: intervals, their error, mean and standard deviation. */
export function estimate(
  values: Float64Array,
  controls: Float64Array,
  stages: readonly number[],
  control: Control | undefined,
  { level, limits }: Settings,
): { found: Estimate; sorted: Float64Array } {
  const n = values.length
  const tail = 1 - level
  const count = Math.min(n, Math.ceil(1.5 * tail * n) + 16)
  const sorted = values.slice()
  sortTails(sorted, count)
  const line = controls.slice()
  if (control) sortTails(line, count)

  // The rank of a probability among the values, corrected by the rank that it has among the controls.
  const rank = (p: number, trust: number) => {
    const plain = n * p - 0.5
    return control && trust > 0 ? plain + trust * (rankOf(line, count, control.quantile(p), p) - plain) : plain
  }
  const end = (p: number) => {
    const border = control ? control.quantile(p) : 0
    const trust = control ? agreement(values, at(sorted, count, rank(p, 1)), controls, border) : 0
    const place = rank(p, trust)
    const value = at(sorted, count, place)
    const below = sharesBelow(values, value, stages)
    const lineBelow = sharesBelow(controls, border, stages)
    const spread = Math.hypot(n * errorOf(below.map((share, copy) => share - trust * lineBelow[copy]!)), 0.5)
    const reach = Math.max(spread, 4)
    const error = ((at(sorted, count, place + reach) - at(sorted, count, place - reach)) / 2) * (spread / reach)
    return { value, error, trust }
  }
  const lower = end(tail / 2)
  const upper = end(1 - tail / 2)

  let shortest: [number, number] = [lower.value, upper.value]
  let best = tail / 2
  const seek = (from: number, to: number, places: number) => {
    for (let j = 0; j <= places; j++) {
      const p = Math.min(Math.max(from + ((to - from) * j) / places, 0.5 / n), tail - 0.5 / n)
      const a = at(sorted, count, rank(p, lower.trust))
      const b = at(sorted, count, rank(p + level, upper.trust))
      if (b - a < shortest[1] - shortest[0]) {
        shortest = [a, b]
        best = p
      }
    }
  }
  const places = Math.min(MANY, Math.max(FEW, Math.ceil(tail * n)))
  seek(0, tail, places)
  if (tail * n > places)
    seek(best - tail / places, best + tail / places, Math.min(FEW * 10, Math.ceil((2 * tail * n) / places)))
  const found = {
    ...momentsOf(values, controls, control),
    interval: [lower.value, upper.value] as const,
    shortest,
    endError: Math.max(lower.error, upper.error),
  }
  if ((n * tail) / 2 < FEWEST) found.endError = Math.max(found.endError, found.u)
  if (!limits) return { found, sorted }
  const inside = values.map((x) => (x >= limits.lower && x <= limits.upper ? 0 : 1))
  const withinError = errorOf(sharesBelow(inside, 0.5, stages))
  return { found: { ...found, within: shareWithin(values, limits), withinError }, sorted }
}

/** Regression of "value at most `first`" on "control at most `border`", 0 to 1: how far the control is to be trusted. */
function agreement(values: Float64Array, first: number, controls: Float64Array, border: number): number {
  let below = 0
  let lineBelow = 0
  let both = 0
  for (let i = 0; i < values.length; i++) {
    const a = values[i]! <= first
    const b = controls[i]! <= border
    if (a) below++
    if (b) lineBelow++
    if (a && b) both++
  }
  const q = lineBelow / values.length
  if (q === 0 || q === 1) return 0
  return Math.min(1, Math.max(0, (both - below * q) / (lineBelow * (1 - q))))
}

/** Mean and standard deviation, with the control's part replaced by what is known of it. */
function momentsOf(values: Float64Array, controls: Float64Array, control: Control | undefined) {
  const [mean, u] = meanAndDeviation(values)
  if (!control) return { mean, u }
  const [middle, deviation] = meanAndDeviation(controls)
  let product = 0
  for (let i = 0; i < values.length; i++) product += (values[i]! - mean) * (controls[i]! - middle)
  const slope = product / ((values.length - 1) * deviation * deviation)
  const variance = u * u + slope * slope * (control.variance - deviation * deviation)
  return { mean: mean - slope * middle, u: variance > 0 ? Math.sqrt(variance) : u }
}

/** Value at a rank that may lie between two, inside a sorted tail. */
function at(sorted: Float64Array, count: number, rank: number): number {
  const n = sorted.length
  const [from, to] = rank < n / 2 ? [0, count - 1] : [n - count, n - 1]
  const inside = Math.min(to, Math.max(from, rank))
  const i = Math.min(to - 1, Math.floor(inside))
  return sorted[i]! + (inside - i) * (sorted[i + 1]! - sorted[i]!)
}

/** Rank that `value` has in the tail in which probability `p` lies, in between included. */
function rankOf(sorted: Float64Array, count: number, value: number, p: number): number {
  let low = p < 0.5 ? 0 : sorted.length - count
  let high = p < 0.5 ? count - 1 : sorted.length - 1
  if (value <= sorted[low]!) return low - 0.5
  if (value >= sorted[high]!) return high + 0.5
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (sorted[middle]! <= value) low = middle
    else high = middle
  }
  const gap = sorted[high]! - sorted[low]!
  return low + (gap > 0 ? (value - sorted[low]!) / gap : 0)
}

/** Share of values that are at most `border`, in each copy of the lattice; every stage holds the copies one after the other. */
function sharesBelow(values: Float64Array, border: number, stages: readonly number[]): Float64Array {
  const points = stages.reduce((sum, share) => sum + share, 0)
  const shares = new Float64Array(values.length / points)
  let i = 0
  for (const share of stages) {
    for (let copy = 0; copy < shares.length; copy++) {
      let below = 0
      for (const end = i + share; i < end; i++) if (values[i]! <= border) below++
      shares[copy]! += below / points
    }
  }
  return shares
}

/** Standard error of the mean of independent means. */
const errorOf = (means: Float64Array): number => meanAndDeviation(means)[1] / Math.sqrt(means.length)
