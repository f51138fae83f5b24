import { InputError, type Spread } from '@ohmward/quantity'
import { studentQuantile } from '../statistics/student.js'
import type { Correlation } from './model.js'

/** Fewest readings of which a scatter can be told. */
const fewest = 2

/** Level of confidence of the limits that are stated for a mean: those of its spread, which extremes are held against. */
const level = 0.95

/** The readings of one quantity, checked, with their mean and the sum of squares about it. */
interface Series {
  readonly mean: number
  readonly deviations: readonly number[]
  readonly squares: number
}

function seriesOf(field: string, values: unknown): Series {
  if (!Array.isArray(values) || values.length < fewest) {
    throw new InputError({ field, value: values, allowed: 'a list of at least two readings' })
  }
  values.forEach((value, n) => {
    if (!(typeof value === 'number' && Number.isFinite(value))) {
      throw new InputError({ field: `${field}[${n}]`, value, allowed: 'a finite number' })
    }
  })
  const readings = values as number[]
  // About the first reading, so that nothing is lost where all are close to one another.
  const first = readings[0]!
  const mean = first + readings.reduce((sum, x) => sum + (x - first), 0) / readings.length
  const deviations = readings.map((x) => x - mean)
  const squares = deviations.reduce((sum, d) => sum + d * d, 0)
  if (!Number.isFinite(squares)) {
    throw new InputError({ field, value: values, allowed: 'readings small enough to be squared' })
  }
  if (readings.every((x) => x === first)) {
    throw new InputError({
      field,
      value: values,
      allowed: 'readings that scatter',
      hint: `All of them are ${first}: the resolution hides the scatter. Give it as limits, ${first} ± half a step`,
    })
  }
  return { mean, deviations, squares }
}

const spreadOf = ({ mean, deviations, squares }: Series): Spread => {
  const n = deviations.length
  const u = Math.sqrt(squares / (n - 1) / n)
  const coverage = studentQuantile((1 + level) / 2, n - 1)
  const distribution = { kind: 't', coverage, degreesOfFreedom: n - 1 } as const
  return { nominal: mean, lower: mean - coverage * u, upper: mean + coverage * u, distribution }
}

/**
 * Repeated readings of one quantity as an input (type A): their mean, with the standard uncertainty of the mean,
 * s/√n (JCGM 100:2008, 4.2), and n - 1 degrees of freedom, so a scaled and shifted t distribution (JCGM 101:2008,
 * 6.4.9). Its limits are those of the 95 % interval. What all readings have in common, such as the error of the
 * instrument, isn't in their scatter and is another input.
 *
 * @param values - at least two readings, independent of one another, in the SI unit of the input
 * @throws InputError for fewer, for one that isn't finite, and for readings that are all the same
 */
export const readings = (values: readonly number[]): Spread => spreadOf(seriesOf('readings', values))

/** Means of readings that were taken together, and how they hang together. */
export interface Simultaneous<K extends string> {
  readonly inputs: Readonly<Record<K, Spread>>
  /** One for each pair; an option of every engine. */
  readonly correlations: readonly Correlation<K>[]
}

/**
 * Readings of several quantities that were taken together, each set at one moment: the mean of each as
 * {@link readings} gives it, and the correlation coefficients of the means (JCGM 100:2008, 5.2.3, equation 17).
 *
 * @param values - readings by the input's name, all lists of the same length
 * @throws InputError as {@link readings}, and for lists of different lengths
 */
export function simultaneous<const K extends string>(values: Readonly<Record<K, readonly number[]>>): Simultaneous<K> {
  if (typeof values !== 'object' || values === null || Array.isArray(values) || Object.keys(values).length === 0) {
    throw new InputError({ field: 'readings', value: values, allowed: 'an object of lists of readings, by name' })
  }
  const names = Object.keys(values) as K[]
  const series = names.map((name) => seriesOf(name, values[name]))
  const count = series[0]!.deviations.length
  series.forEach(({ deviations: { length } }, k) => {
    if (length === count) return
    const allowed = `as many readings as ${names[0]} has, ${count}`
    throw new InputError({ field: `${names[k]}.length`, value: length, allowed })
  })
  const inputs = Object.fromEntries(names.map((name, k) => [name, spreadOf(series[k]!)])) as Record<K, Spread>
  const correlations: Correlation<K>[] = []
  series.forEach((a, i) => {
    series.slice(0, i).forEach((b, j) => {
      const product = a.deviations.reduce((sum, d, n) => sum + d * b.deviations[n]!, 0)
      const coefficient = product / Math.sqrt(a.squares) / Math.sqrt(b.squares)
      correlations.push({ between: [names[j]!, names[i]!], coefficient: Math.min(1, Math.max(-1, coefficient)) })
    })
  })
  return { inputs, correlations }
}
