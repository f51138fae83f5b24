import type { FieldSpec } from '../read/field.js'
import { parseQuantity, type Reading } from '../unit/quantity.js'
import { plainUnit, unitSize } from '../unit/unit.js'
import { limitsAround } from './make-spread.js'

/** A value with its limits, and what its letter could have meant. */
export interface Limits extends Pick<Reading, 'written' | 'swapped'> {
  readonly nominal: number
  readonly lower: number
  readonly upper: number
}

const symmetrical = /^(.*?)(?:±|\+\s?\/\s?-|\+-)(.*)$/s
const lopsided = /^(.*?)([+-])\s*([\d.][^+-]*?)\s*\/\s*([+-])\s*([\d.].*)$/s
/** A tolerance without its sign, after a value: `22 ohm 1 %`. */
const unsigned = /^([^%]*\S)\s+([\d.]+\s*(?:%|ppm))$/s
/** Two limits: `1 V to 2.2 V`, `1 to 2.2 V`. */
const ends = /^(.*?\S)\s+to\s+(\S.*)$/is
const before = /^(<=?|≤|>=?|≥|max\.?|min\.?)\s*(.*)$/is
const after = /^(.*?)\s*\b(max|min)\.?$/is

/**
 * Limits out of a text in the field's unit: `47 ohm ±1 %`, `22 ohm 1 %`, `±10 µV`, `1.1 V +5/-3 %`, `1 V to 2.2 V`,
 * `<= 3 mohm`; or, as a string, why they can't be read. A value alone gives no width.
 */
export function parseLimits(text: string, spec: FieldSpec): Limits | string {
  const plain = text.trim().replaceAll('\u2212', '-')
  if (plain.length > 120) return 'It is too long'
  if (/\.\.|…/.test(plain))
    return 'A range to cover is given as { from, to }, the limits of a part as 3 V to 4.2 V or 3.6 V ±0.6 V'
  const skew = lopsided.exec(plain)
  if (skew) return withWidths(skew[1]!, widths(skew), spec)
  const even = symmetrical.exec(plain)
  if (even) return withWidths(even[1]!, [even[2]!, even[2]!], spec)
  const [, first, last] = ends.exec(plain) ?? []
  if (first !== undefined) return twoSided(first, last!, spec)
  const [, word, value] = before.exec(plain) ?? []
  if (word !== undefined) return oneSided(value!, /^(<|≤|max)/i.test(word), spec)
  const [, number, bound] = after.exec(plain) ?? []
  const minutes = spec.unit === 's' && bound === 'min'
  if (bound !== undefined && !minutes) return oneSided(number!, /max/i.test(bound), spec)
  const [, head = '', tail = ''] = unsigned.exec(plain) ?? []
  if (tail.endsWith('%') && /[a-zΩ\u2126]/i.test(head)) return withWidths(head, [tail, tail], spec)
  if (tail !== '') return `Write a tolerance with ±: ${head} ±${tail}`
  const read = parseQuantity(plain, spec.unit)
  return typeof read === 'string' ? read : { ...read, nominal: read.value, lower: read.value, upper: read.value }
}

/** Widths below and above of `+20/-10 %`; a unit after the second number holds for both. */
function widths([, , sign, first = '', other, second = '']: string[]): [below: string, above: string] | string {
  if (sign === other) return 'The two deviations must have opposite signs'
  const unit = second.replace(/^[\d.]+(e\d+)?/i, '')
  const own = /[^\d.]/.test(first)
  if (own && unit === '' && Number(second) !== 0) return 'Give both deviations their unit'
  const one = own ? first : first + unit
  return sign === '+' ? [second, one] : [one, second]
}

function withWidths(value: string, sides: [below: string, above: string] | string, spec: FieldSpec): Limits | string {
  const nominal = value.trim() === '' ? { value: 0, written: '' } : parseQuantity(value, spec.unit)
  if (typeof nominal === 'string') return nominal
  if (typeof sides === 'string') return sides
  const [below, above] = sides.map((side) => width(side.trim(), nominal, spec)) as [number | string, number | string]
  if (typeof below === 'string') return below
  if (typeof above === 'string') return above
  const [lower, upper] = limitsAround(nominal.value, below, above)
  return { ...nominal, nominal: nominal.value, lower, upper }
}

/** Half a width, in the field's unit. */
function width(text: string, { value, written }: Reading, { unit }: FieldSpec): number | string {
  if (/^[+-]/.test(text)) return 'A tolerance has no sign after ±'
  if (/(%|ppm)$/.test(text)) return partOf(text, value, written, unit)
  const difference = unit === 'degC' ? 'K' : unit
  const read = parseQuantity(unit === 'degC' ? text.replace(/(?<!deg|°\s?)C$/, 'degC') : text, difference)
  if (typeof read === 'string') return read
  if (read.written === '' && isScaled(written, unit)) return 'Give the tolerance its unit, or %'
  return read.value
}

function partOf(text: string, value: number, written: string, unit: string): number | string {
  const part = parseQuantity(text, '1')
  if (typeof part === 'string') return part
  if (part.value > 1) return 'A tolerance over 100 % says nothing'
  if (unit === 'degC' || unit === 'dB')
    return `A share of a value in ${unit} means nothing; give the tolerance in its unit`
  if (value === 0) return unit === '1' ? part.value : `A share of 0 is 0; give the tolerance in ${unit}`
  if (unit === '1' && /%|ppm/.test(written)) return 'It may be a share or a difference; write 0.5 ±0.01'
  return Math.abs(value) * part.value
}

const isScaled = (written: string, unit: string) => {
  const size = unitSize(plainUnit(written))
  return (
    written !== '' &&
    unit !== 'degC' &&
    !(written === 'ohm' || written === 'R') &&
    (size?.power !== 0 || size.factor !== 1)
  )
}

/** Both limits stated, without a value between: the middle stands for it. A number alone has the unit of the other limit. */
function twoSided(first: string, last: string, { unit }: FieldSpec): Limits | string {
  const above = parseQuantity(last, unit)
  if (typeof above === 'string') return above
  const below = parseQuantity(/^[+-]?[\d.]+(?:e[+-]?\d+)?$/i.test(first) ? `${first} ${above.written}` : first, unit)
  if (typeof below === 'string') return below
  return { ...above, nominal: below.value + (above.value - below.value) / 2, lower: below.value, upper: above.value }
}

/** One stated limit; the other is the field's own. The middle stands for the value (JCGM 100:2008, 4.3.7). */
function oneSided(text: string, isUpper: boolean, { unit, min, max }: FieldSpec): Limits | string {
  const read = parseQuantity(text, unit)
  if (typeof read === 'string') return read
  const other = isUpper ? min : max
  if (other === undefined)
    return 'Give both limits: an offset of either sign is 0 ±10 µV, else { nominal, lower, upper, distribution }'
  const [lower, upper] = isUpper ? [other, read.value] : [read.value, other]
  return { ...read, nominal: lower + (upper - lower) / 2, lower, upper }
}
