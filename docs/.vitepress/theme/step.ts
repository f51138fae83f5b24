import { format, InputError, nextDown, nextUp, readSpread } from '@ohmward/quantity'
import type { Field } from './block.ts'
import { parted } from './tolerance.ts'

/**
 * The text of a field with its value moved on: to the next preferred value, or by one in its last digit. What stands behind
 * the value (a tolerance, a distribution) stays. Undefined where the text holds no value to step from.
 */
export function step(text: string, { series, unit }: Pick<Field, 'series' | 'unit'>, up: boolean): string | undefined {
  const [value, tolerance] = parted(text)
  if (series === undefined) return lastDigit(value, tolerance, up)
  try {
    const { nominal } = readSpread(value, { field: 'value', unit })
    const next = (up ? nextUp : nextDown)(nominal, series)
    return format(next, unit, { ascii: true }) + tolerance
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** `3.0 V` to `3.1 V`: one more in the last digit that stands there. */
function lastDigit(value: string, tolerance: string, up: boolean): string | undefined {
  const [, number = '', rest = ''] = /^(-?\d+(?:\.\d+)?)(\s*[^\d:;,]*)$/.exec(value) ?? []
  if (number === '') return undefined
  const digits = (number.split('.')[1] ?? '').length
  const next = Number(number) + (up ? 1 : -1) * 10 ** -digits
  return next.toFixed(digits) + rest + tolerance
}
