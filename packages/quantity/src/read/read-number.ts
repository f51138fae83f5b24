import { parseQuantity, type Reading } from '../unit/quantity.js'
import { type FieldSpec, fits, refusal, validSpec } from './field.js'

/**
 * Reads a number as people write it, and returns it in the field's unit: `4.7 kΩ`, `4k7`, `R22`, `22 m`, `100 ppm/K`,
 * `50 nV/√Hz`, `5 %`, `−40 °C`, `2000 mAh`. A number, or a string without unit, already is in the field's unit.
 *
 * `m` is always milli and `M` always mega; the decimal sign is the point. Nothing is guessed: a comma, two numbers, an
 * unknown or another unit are refused.
 *
 * @throws InputError naming field, value, unit, what is allowed
 */
export function readNumber(input: unknown, spec: FieldSpec): number {
  validSpec(spec)
  if (typeof input === 'number') {
    if (!fits(input, spec)) throw refusal(spec, input)
    return input + 0
  }
  if (typeof input !== 'string') throw refusal(spec, input)
  const read = parseQuantity(input, spec.unit)
  if (typeof read === 'string') throw refusal(spec, input, read)
  if (!fits(read.value, spec)) throw refusal(spec, input, otherCase(read, spec))
  return read.value + 0
}

/** Where milli is out of bounds and mega would fit, or the other way round. */
export function otherCase({ written, swapped }: Pick<Reading, 'written' | 'swapped'>, spec: FieldSpec): string {
  if (swapped === undefined || !fits(swapped, spec)) return ''
  return written.startsWith('m') ? 'm is milli; mega is written M' : 'M is mega; milli is written m'
}
