import { letterText } from '../preferred/tolerance-letters.js'
import { powerOfPrefix } from './prefix.js'
import { plainUnit, scalable, unitSize } from './unit.js'

/** A number that was read, in the wanted unit. */
export interface Reading {
  readonly value: number
  /** What it would be with mega for milli, or milli for mega. */
  readonly swapped?: number
  /** Unit as it was written, in ASCII; empty where there was none. */
  readonly written: string
}

const plain = /^([+-]?(?:\d+\.?\d*|\.\d+))(?:e([+-]?\d+))?(.*)$/is
const coded = /^([+-]?)(\d*)([a-df-zA-DF-Zµμ])(\d+)(\D.*)?$/s

/** What was read lately: a tool that checks at each keystroke reads the same fifty texts again and again. */
const known = /*#__PURE__*/ new Map<string, Reading | string>()

/**
 * One number and its unit out of a text, in `unit`; or, as a string, why it can't be read.
 */
export function parseQuantity(text: string, unit: string): Reading | string {
  if (text.length > 80) return 'It is too long'
  const key = `${unit} ${text}`
  let read = known.get(key)
  if (read === undefined) {
    read = parse(text, unit)
    if (known.size >= 500) known.clear()
    known.set(key, read)
  }
  return read
}

function parse(text: string, unit: string): Reading | string {
  const trimmed = text.trim().replaceAll('\u2212', '-')
  if (trimmed === '') return 'It is empty'
  if (trimmed.includes(',')) return 'Write a decimal point, not a comma, and no thousands separator'
  const code = coded.exec(trimmed)
  if (code) return readCode(code, unit)
  const [, mantissa, exponent = '0', rest = ''] = plain.exec(trimmed) ?? []
  if (mantissa === undefined) return 'It does not begin with a number'
  return scaled(mantissa, Number(exponent), plainUnit(rest.trim()), unit)
}

/** `4k7`, `R22`, `3V3`: the letter stands for the point. */
function readCode([, sign = '', whole = '', letter = '', fraction = '', rest = '']: string[], unit: string) {
  const power = powerOfLetter(plainUnit(letter), unit)
  const after = unitSize(plainUnit(rest.trim()))
  const own = rest.trim() === '' || (after?.dimension === unitSize(unit)?.dimension && after?.power === 0)
  if (power !== undefined && !own) {
    const tolerance = /^(ohm|F)$/.test(unit) && letterText(rest.trim())
    if (tolerance) return `Write the tolerance of the letter ${rest.trim()} out: ${tolerance}`
    return `"${rest.trim()}" is not a unit of this field`
  }
  if (power === undefined || (whole === '' && !/^(ohm|F|H)$/.test(unit)))
    return `"${letter}" can't stand for the point in ${unit === '1' ? 'a ratio' : unit}`
  return reading(`${sign}${whole || '0'}.${fraction}`, power, letter)
}

function powerOfLetter(letter: string, unit: string): number | undefined {
  if (unit === 'ohm') {
    const place = 'RrKL'.indexOf(letter)
    if (place >= 0) return [0, 0, 3, -3][place]
  }
  if (letter === unit && /^[VAFHW]$/.test(unit)) return 0
  return scalable(unit) || unit === '1' ? powerOfPrefix(letter) : undefined
}

function scaled(mantissa: string, exponent: number, written: string, unit: string): Reading | string {
  const name = unit === 'ohm' ? written.replace(/^K(?=$|ohm$)/, 'k').replace(/^R$/, 'ohm') : written
  if (unit === 'degC') return temperature(mantissa, exponent, name)
  const wanted = unitSize(unit)
  if (!wanted) return `The unit of this field, ${unit}, is not known`
  const size = name === '' ? wanted : unitSize(name)
  if (size && size.dimension === wanted.dimension)
    return reading(mantissa, exponent + size.power - wanted.power, name, size.factor / wanted.factor)
  const prefix = /^[pnumkMG]$/.test(name) && (scalable(unit) || unit === '1') ? powerOfPrefix(name) : undefined
  if (prefix !== undefined) return reading(mantissa, exponent + prefix, name)
  if (/±|\+\s?\/?\s?-|\s[\d.]+\s*%$/.test(name)) return 'No tolerance is taken here'
  if (/^[^a-z%]*\d/i.test(name)) return 'It holds two numbers'
  if (!size) return `"${written}" is no unit known here`
  return `"${written}" is not a unit of this field${name === 'K' ? '; kilo is written k' : ''}`
}

function temperature(mantissa: string, exponent: number, name: string): Reading | string {
  if (name === '' || name === 'degC' || name === 'C') return reading(mantissa, exponent, name)
  if (name !== 'K') return `"${name}" is not a unit of this field`
  const kelvin = reading(mantissa, exponent, name)
  return typeof kelvin === 'string' ? kelvin : { value: Number((kelvin.value - 273.15).toPrecision(15)), written: name }
}

/** The double nearest to the decimal, so that `0.47 µF` is exactly `4.7e-7`. */
function reading(mantissa: string, power: number, written: string, factor = 1): Reading | string {
  const whole = Math.trunc(power)
  const value = Number(`${mantissa}e${whole}`) * 10 ** (power - whole) * factor
  if (!Number.isFinite(value)) return 'It is too large'
  if (value === 0 && /[1-9]/.test(mantissa)) return 'It is too small'
  if (written[0] !== 'm' && written[0] !== 'M') return { value, written }
  return { value, written, swapped: written[0] === 'm' ? value * 1e9 : value / 1e9 }
}
