import { format, InputError, nextDown, nextUp, readSpread, type Series, type Unit } from '@ohmward/quantity'
import { parted } from './tolerance.ts'

/**
 * The text of a field with its value moved to the next preferred value; what stands behind the value (a tolerance, a
 * distribution) stays. Undefined where the text holds no value to step from.
 */
export function step(text: string, series: Series, unit: Unit, up: boolean): string | undefined {
  const [value, tolerance] = parted(text)
  try {
    const { nominal } = readSpread(value, { field: 'value', unit })
    const next = (up ? nextUp : nextDown)(nominal, series)
    return format(next, unit, { ascii: true }) + tolerance
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}
