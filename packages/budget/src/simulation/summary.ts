import { InputError } from '@ohmward/quantity'
import type { Simulation } from '../budget/budget.js'
import { histogram } from '../sampling/histogram.js'
import type { Intervals } from '../sampling/interval.js'
import type { Settings } from './options.js'

/** Bins of the histogram; its range is twice the interval, so that a far value doesn't hide the shape. */
const BINS = 64

/** Mean and standard deviation, in two passes. */
export function meanAndDeviation(values: Float64Array): readonly [mean: number, deviation: number] {
  const n = values.length
  let sum = 0
  for (let i = 0; i < n; i++) sum += values[i]!
  const mean = sum / n
  let squares = 0
  for (let i = 0; i < n; i++) {
    const d = values[i]! - mean
    squares += d * d
  }
  return [mean, Math.sqrt(squares / Math.max(1, n - 1))]
}

/** Share of values within limits. */
export function shareWithin(values: Float64Array, { lower, upper }: { lower: number; upper: number }): number {
  let count = 0
  for (let i = 0; i < values.length; i++) if (values[i]! >= lower && values[i]! <= upper) count++
  return count / values.length
}

/** What a method found. */
export interface Found extends Intervals {
  readonly mean: number
  readonly u: number
  readonly endError: number
  readonly shortestError: number
  readonly within?: number
  readonly withinError?: number
}

/** The answer, from values whose smallest stands first and whose largest stands last. */
export function summary(values: Float64Array, found: Found, { seed, level, accuracy }: Settings): Simulation {
  const { interval, shortest, mean, u, endError, shortestError, within, withinError } = found
  const minimum = values[0]!
  const maximum = values[values.length - 1]!
  if (!Number.isFinite(u + maximum - minimum)) {
    throw new InputError({ field: 'result of the model', value: maximum, allowed: 'small enough to be squared' })
  }
  const width = interval[1] - interval[0]
  return {
    mean,
    u,
    level,
    interval,
    shortest,
    minimum,
    maximum,
    trials: values.length,
    seed,
    endError,
    shortestError,
    converged: endError <= accuracy * u,
    histogram: histogram(
      values,
      Math.max(minimum, interval[0] - width / 2),
      Math.min(maximum, interval[1] + width / 2),
      BINS,
    ),
    ...(within !== undefined && { within }),
    ...(withinError !== undefined && { withinError }),
  }
}
