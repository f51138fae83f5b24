import { format, type Spread } from '@ohmward/quantity'

const isSpread = (value: unknown): value is Spread =>
  typeof value === 'object' && value !== null && typeof (value as Spread).nominal === 'number'

/** The number that a field stands for: its nominal value where it has limits; undefined where it is none. */
export function numberOf(read: unknown): number | undefined {
  if (typeof read === 'number') return read
  return isSpread(read) ? read.nominal : undefined
}

const tolerance = /\s*(±|\+\s?\/\s?-|\+-)\s*[\d.]+\s*(%|ppm).*$/

/**
 * Another value for a field, as a reader would type it, with the relative tolerance that stood there: `18 kohm ±1 %` in
 * the place of `22 kohm ±1 %`. A magnitude or an exact value stays one.
 */
export function typed(given: unknown, value: number, unit: string, digits: number): string {
  const number = format(value, unit, { digits, ascii: true })
  const own = typeof given === 'string' ? tolerance.exec(given) : null
  if (own) return `${number} ${own[0].trim()}`
  if (!isSpread(given) || given.lower === given.upper || given.nominal === 0) return number
  const below = 1 - given.lower / given.nominal
  const above = given.upper / given.nominal - 1
  const share = (x: number) => `${Number((100 * Math.abs(x)).toPrecision(6))}`
  return below === above ? `${number} ±${share(above)} %` : `${number} +${share(above)}/-${share(below)} %`
}

/**
 * Numbers of so many digits from `start` towards `end`, `start` itself left out: what may be printed, and so what may be
 * proposed. At most a few hundred; beyond that they are thinned out.
 */
export function printable(start: number, end: number, digits: number): number[] {
  const up = end > start
  if (start === end || !Number.isFinite(start) || !Number.isFinite(end)) return []
  const values: number[] = []
  let x = start !== 0 ? start : end * 1e-6
  for (let i = 0; i < 2000; i++) {
    const step = 10 ** (Math.floor(Math.log10(Math.abs(x)) + 1e-12) - digits + 1)
    const next = up ? Math.floor(x / step + 1e-9) + 1 : Math.ceil(x / step - 1e-9) - 1
    x = Number((next * step).toPrecision(digits))
    // Past a power of ten the steps are finer below: one digit more is one step too far only there.
    if (x === 0 || (up ? x > end : x < end)) break
    values.push(x)
  }
  return values
}
