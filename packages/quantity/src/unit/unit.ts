import { powerOfPrefix } from './prefix.js'

/** A unit by itself. */
export type UnitSymbol =
  | '1'
  | 'V'
  | 'A'
  | 'ohm'
  | 'S'
  | 'F'
  | 'H'
  | 'C'
  | 'W'
  | 'J'
  | 'T'
  | 's'
  | 'Hz'
  | 'K'
  | 'm'
  | 'dB'
  | 'LSB'
  | 'bit'

/**
 * Unit of a field, in ASCII: a coherent SI unit (`ohm`, `K/W`, `1/K`, `V/Hz^0.5`), `degC` for a temperature, `1` for
 * a ratio, `dB` for a level, `LSB` for converter counts, `bit` for a resolution. Scaled units such as `ppm/K`, `%` and
 * `mAh` are read and written, but a field's number never is in them.
 */
export type Unit =
  | UnitSymbol
  | 'degC'
  | `${UnitSymbol}/${UnitSymbol}`
  | `${UnitSymbol}/Hz^0.5`
  | `${UnitSymbol}*${UnitSymbol}`

/** What a unit is worth: its dimension, and its size as `factor · 10^power` of the coherent unit. */
export interface UnitSize {
  readonly dimension: string
  readonly power: number
  readonly factor: number
}

/** Every known unit: made of what, power of ten, factor. Those of `''` are the base. */
const units: Readonly<Record<string, readonly [of: string, power?: number, factor?: number]>> = {
  V: [''],
  A: [''],
  s: [''],
  K: [''],
  m: [''],
  dB: [''],
  LSB: [''],
  bit: [''],
  ohm: ['V/A'],
  S: ['A/V'],
  F: ['A*s/V'],
  H: ['V*s/A'],
  C: ['A*s'],
  W: ['V*A'],
  J: ['V*A*s'],
  T: ['V*s/m^2'],
  Hz: ['1/s'],
  Ah: ['A*s', 2, 36],
  Wh: ['V*A*s', 2, 36],
  h: ['s', 2, 36],
  min: ['s', 1, 6],
  day: ['s', 2, 864],
  cm: ['m', -2],
  degC: ['K'],
  count: ['LSB'],
  '%': ['1', -2],
  ppm: ['1', -6],
}

const takesPrefix = (name: string) => ' V A s K m ohm S F H C W J T Hz Ah Wh '.includes(` ${name} `)

/** Whether a prefix may stand before this unit: before the first of its parts, when that has no exponent. */
export const scalable = (unit: string) => takesPrefix(unit.split(/[*/]/)[0]!)

/** A unit as people write it, in the ASCII spelling that {@link unitSize} reads: `µV/√Hz` becomes `uV/Hz^0.5`. */
export function plainUnit(text: string): string {
  return text
    .replace(/ohms?|[Ω\u2126]/gi, 'ohm')
    .replace(/[µμ]/g, 'u')
    .replace(/°\s*C|\u2103|deg C/g, 'degC')
    .replace(/√\(?(\w+)\)?|sqrt\((\w+)\)/g, '$1$2^0.5')
    .replace(/[·⋅]/g, '*')
    .replace(/²/g, '^2')
    .replace(/\b(bit|count)s\b/, '$1')
    .replace(/\s*([*/])\s*/g, '$1')
    .replace(/^([pnumkMG])\s+(?=ohm|[VAFHW])/, '$1')
}

/** Sizes of units by their spelling: every text names one, and few are in use. */
const sizes = /*#__PURE__*/ new Map<string, UnitSize>()

/** Dimension and size of a unit in ASCII spelling; `undefined` where it isn't known. */
export function unitSize(unit: string): UnitSize | undefined {
  const size = sizes.get(unit) ?? sizeOf(unit)
  if (sizes.size > 99) sizes.clear()
  if (size) sizes.set(unit, size)
  return size
}

function sizeOf(unit: string): UnitSize | undefined {
  const exponents: Record<string, number> = {}
  const size = { power: 0, factor: 1 }
  return collect(unit, 1, exponents, size) ? { dimension: dimensionOf(exponents), ...size } : undefined
}

function collect(
  unit: string,
  times: number,
  exponents: Record<string, number>,
  size: { power: number; factor: number },
): boolean {
  return unit.split(/(?=[*/])/).every((part, i) => {
    const [, operator, name = '', exponent = '1'] = /^([*/]?)([a-zA-Z%]+|1)(?:\^(-?[\d.]+))?$/.exec(part) ?? []
    if (name === '' || (operator !== '') !== i > 0) return false
    if (name === '1') return true
    const n = times * Number(exponent) * (operator === '/' ? -1 : 1)
    const whole = Object.hasOwn(units, name)
    const prefix = whole ? 0 : powerOfPrefix(name[0]!)
    const base = whole ? name : name.slice(1)
    if (prefix === undefined || !Number.isFinite(n) || !(whole || takesPrefix(base))) return false
    const [of, power = 0, factor = 1] = units[base]!
    size.power += n * (prefix + power)
    size.factor *= factor ** n
    if (of !== '') return collect(of, n, exponents, size)
    exponents[base] = (exponents[base] ?? 0) + n
    return true
  })
}

const dimensionOf = (exponents: Record<string, number>) =>
  Object.keys(exponents)
    .filter((name) => exponents[name] !== 0)
    .sort()
    .map((name) => name + exponents[name])
    .join(' ')
