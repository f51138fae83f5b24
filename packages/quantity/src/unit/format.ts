import { InputError } from '../read/error.js'
import { missingFields } from '../read/missing-fields.js'
import { prefixFor } from './prefix.js'
import { scalable, unitSize } from './unit.js'

/** Options by name. */
const known = ['digits', 'zeros', 'ascii', 'as', 'towards']

/** How a number is written. */
export interface FormatOptions {
  /** Significant digits, 1 to 17; 4 by default. 17 always reads back as the same number. */
  readonly digits?: number
  /** Keep trailing zeros, for columns; they are dropped by default. */
  readonly zeros?: boolean
  /** `kohm`, `uV` and `-` instead of `kΩ`, `µV` and `−`. */
  readonly ascii?: boolean
  /** A unit of the same dimension to write it in, without further prefix: `%`, `ppm/K`, `mAh`. */
  readonly as?: string
  /** Where to round: `up`, no lower than the number, or `down`, no higher; to the nearest by default. */
  readonly towards?: 'up' | 'down'
}

/**
 * A number of this unit as engineers write it: `format(4700, 'ohm')` is `4.7 kΩ`. Prefixes go in steps of a thousand,
 * the minus is U+2212, and what is written can be read again.
 *
 * A unit that isn't known is shown as it stands, without prefix. `1/K` is written in `ppm/K`.
 *
 * @throws InputError for NaN, infinities and digits out of range, an option that doesn't exist, a unit that is no text or
 *   longer than any
 */
export function format(value: number, unit: string, options: FormatOptions = {}): string {
  const [number, suffix] = formatParts(value, unit, options)
  return suffix === '' ? number : `${number} ${suffix}`
}

/** The number and the unit of {@link format} apart. */
export function formatParts(value: number, unit: string, options: FormatOptions = {}): [number: string, unit: string] {
  asText('unit', unit)
  if (typeof options !== 'object' || options === null || Object.keys(options).some((name) => !known.includes(name)))
    missingFields(options, [], 'options', known)
  const { digits = 4, zeros = false, ascii = false, as = unit === '1/K' ? 'ppm/K' : '', towards } = options
  asText('as', as)
  if (!Number.isFinite(value)) throw new InputError({ field: 'value', value, unit, allowed: 'a finite number' })
  if (!(Number.isInteger(digits) && digits >= 1 && digits <= 17))
    throw new InputError({ field: 'digits', value: digits, allowed: 'a whole number from 1 to 17' })
  const [power, factor] = as === '' ? [0, 1] : scaleTo(as, unit)
  if (towards !== undefined && towards !== 'up' && towards !== 'down')
    throw new InputError({ field: 'towards', value: towards, allowed: '"up" or "down"' })
  const size = Math.abs(value / factor)
  const away = towards === undefined ? undefined : (towards === 'up') === value > 0
  const [mantissa = '', tens = ''] = rounded(size, digits, away).split('e')
  // Zero has no size: it takes no prefix, and no power of ten in another unit.
  const exponent = Number(mantissa) === 0 ? 0 : Number(tens) - power
  const [prefix, step] = as === '' && scalable(unit) ? prefixFor(exponent, /^[sFK]/.test(unit) ? 0 : 12) : ['', 0]
  const place = exponent - step
  const figures = mantissa.replace('.', '')
  const usual = place >= (step === 0 ? -4 : 0) && place < 6
  const number = usual ? decimal(figures, place, zeros) : `${decimal(figures, 0, zeros)}e${exponent}`
  const written = (usual ? prefix : '') + (as === '' ? unit : as)
  const sign = value < 0 ? (ascii ? '-' : '\u2212') : ''
  return [sign + (ascii ? number : number.replace('-', '\u2212')), ascii ? asciiUnit(written) : typographic(written)]
}

/**
 * A size of so many digits: to the nearest, or away from zero or towards it. What an addition leaves behind the twelfth digit
 * is no part of the number.
 */
function rounded(size: number, digits: number, away: boolean | undefined): string {
  const nearest = size.toExponential(digits - 1)
  if (away === undefined || Math.abs(Number(nearest) - size) <= 1e-12 * size || Number(nearest) > size === away)
    return nearest
  const step = 10 ** (Number(size.toExponential(15).split('e')[1]) - digits + 1)
  return (Number(nearest) + (away ? step : -step)).toExponential(digits - 1)
}

/** No unit is longer: what is, is a mistake. */
const longest = 200

/** Throws unless it is a text of a unit's length. */
function asText(field: string, value: unknown): void {
  if (typeof value !== 'string' || value.length > longest)
    throw new InputError({ field, value, allowed: `a text of at most ${longest} characters` })
}

function scaleTo(as: string, unit: string): [power: number, factor: number] {
  const to = unitSize(as)
  const from = unitSize(unit)
  if (!to || !from || to.dimension !== from.dimension)
    throw new InputError({ field: 'as', value: as, allowed: `a unit of the dimension of ${unit}` })
  return [to.power - from.power, to.factor / from.factor]
}

/** Digits with the point after the one at `place`. */
function decimal(figures: string, place: number, zeros: boolean): string {
  const padded = place < 0 ? '0'.repeat(-place) + figures : figures.padEnd(place + 1, '0')
  const whole = padded.slice(0, Math.max(place, 0) + 1)
  const rest = padded.slice(whole.length)
  const fraction = zeros ? rest : rest.replace(/0+$/, '')
  return fraction === '' ? whole : `${whole}.${fraction}`
}

const asciiUnit = (unit: string) => (unit === '1' ? '' : unit)

/** A unit of ASCII spelling with the proper signs: `uV/Hz^0.5` becomes `µV/√Hz`. @throws InputError for what is no text, or too long */
export function typographic(unit: string): string {
  asText('unit', unit)
  return asciiUnit(unit)
    .replace(/ohm/g, 'Ω')
    .replace(/degC/g, '°C')
    .replace(/(^|[*/])u(?=[A-ZΩsm])/g, '$1µ')
    .replace(/(?<![A-Za-z])([A-Za-z]+)\^0\.5/g, '√$1')
    .replace(/\^2/g, '²')
    .replace(/\*/g, '·')
}
