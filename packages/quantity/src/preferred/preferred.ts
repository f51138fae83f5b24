import { InputError } from '../read/error.js'
import { missingFields } from '../read/missing-fields.js'
import { indexAtMost, type Series, sizeOf, valueAt } from './series.js'

const smallest = 1e-15
const largest = 1e15

/** The values of one decade of a series, from 1 to below 10. @throws InputError where there is no such series */
export function preferredValues(series: Series): number[] {
  const size = sizeOf(series)
  return Array.from({ length: size }, (_, i) => valueAt(size, i))
}

/**
 * The preferred value nearest to `value` in ratio: 1 decibel above is as far as 1 decibel below. A tie goes to the
 * smaller one.
 *
 * @param value - 1e-15 to 1e15, in any unit
 * @throws InputError for a value out of range or an unknown series
 */
export function nearest(value: number, series: Series): number {
  const [size, index] = find(value, series)
  const below = valueAt(size, index)
  const above = valueAt(size, index + 1)
  return value / below <= above / value ? below : above
}

/** The smallest preferred value above `value`, never `value` itself. Range and errors as {@link nearest}. */
export function nextUp(value: number, series: Series): number {
  const [size, index] = find(value, series)
  return valueAt(size, index + 1)
}

/** The largest preferred value below `value`, never `value` itself. Range and errors as {@link nearest}. */
export function nextDown(value: number, series: Series): number {
  const [size, index] = find(value, series)
  const here = valueAt(size, index)
  return here < value ? here : valueAt(size, index - 1)
}

/** The smallest preferred value that is `value` or more. Range and errors as {@link nearest}. */
export function preferredAtLeast(value: number, series: Series): number {
  const [size, index] = find(value, series)
  const here = valueAt(size, index)
  return here === value ? here : valueAt(size, index + 1)
}

/** The largest preferred value that is `value` or less. Range and errors as {@link nearest}. */
export function preferredAtMost(value: number, series: Series): number {
  const [size, index] = find(value, series)
  return valueAt(size, index)
}

/** All preferred values from one value to another, both included where they are preferred, in rising order. */
export function preferredIn(range: { readonly from: number; readonly to: number }, series: Series): number[] {
  const size = sizeOf(series)
  missingFields(range, ['from', 'to'], 'range')
  inside('from', range.from)
  inside('to', range.to)
  const values: number[] = []
  for (let i = indexAtMost(size, range.from); valueAt(size, i) <= range.to; i++) {
    const value = valueAt(size, i)
    if (value >= range.from) values.push(value)
  }
  return values
}

function find(value: number, series: Series): readonly [size: number, index: number] {
  const size = sizeOf(series)
  inside('value', value)
  return [size, indexAtMost(size, value)]
}

function inside(field: string, value: number): void {
  if (!(typeof value === 'number' && value >= smallest && value <= largest))
    throw new InputError({ field, value, allowed: `from ${smallest} to ${largest}` })
}
