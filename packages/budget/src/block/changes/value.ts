import { demandFinite, demandNumber, demandSpread, format, type Spread } from '@ohmward/quantity'

const isSpread = (value: unknown): value is Spread =>
  typeof value === 'object' && value !== null && typeof (value as Spread).nominal === 'number'

/** The number that a field stands for: its nominal value where it has limits; undefined where it is none. */
export function numberOf(read: unknown): number | undefined {
  if (typeof read === 'number') return read
  return isSpread(read) ? read.nominal : undefined
}

/** A tolerance at the end of a text, in per cent or in a unit, even or not: `±1 %`, `±4 mohm normal k=2`, `+50/-20 %`. */
const tolerance = /\s*(?:±|\+\s?\/\s?-|\+-|[+-]\s*[\d.]+[^+-]*\/\s*[+-]).*$/
const atMost = /^\s*(?:<=?|≤|max\b)|\bmax\.?\s*$/i
const atLeast = /^\s*(?:>=?|≥|min\b)|\bmin\.?\s*$/i

/**
 * Another value for a field, as a reader would type it, with the tolerance that stands there: `18 kohm ±1 %` in the place
 * of `22 kohm ±1 %`, `<= 2 mohm` in the place of `3 mohm max`. An exact value stays one; what was not given keeps the
 * width that was taken for it.
 *
 * @param given - what was given; nothing where the field was left out
 * @param read - what was read of it
 */
export function typed(given: unknown, read: unknown, value: number, unit: string, digits: number): string {
  const number = format(value, unit, { digits, ascii: true })
  if (typeof given === 'string') {
    if (atMost.test(given)) return `<= ${number}`
    if (atLeast.test(given)) return `>= ${number}`
    const own = tolerance.exec(given)
    return own ? `${number} ${own[0].trim()}` : number
  }
  const spread = given === undefined ? read : given
  return isSpread(spread) ? `${number}${widthOf(spread, value, unit)}` : number
}

/**
 * Another value for a spread, as a reader would type it: as far off each way, as a share of it, as the spread is.
 *
 * @param digits - significant digits of the value, 1 to 15
 * @throws InputError where a value isn't finite, or the spread is none
 */
export function typedAlike(spread: Spread, value: number, unit: string, digits = 4): string {
  demandSpread(spread)
  demandFinite('value', value)
  demandNumber(digits, { field: 'digits', unit: '1', min: 1, max: 15, integer: true })
  return typed(undefined, spread, value, unit, digits)
}

/** The width of a spread as a share of its value, in words, with its shape where that isn't rectangular; beyond all of it in its unit. */
function widthOf({ nominal, lower, upper, distribution }: Spread, value: number, unit: string): string {
  if (lower === upper || nominal === 0) return ''
  const shares = [nominal - lower, upper - nominal].map((x) => x / Math.abs(nominal))
  // More than 100 % is nothing that a reader takes.
  const isWide = Math.max(...shares) > 1
  const written = (share: number) =>
    isWide ? format(share * Math.abs(value), unit, { digits: 4, ascii: true }) : Number((100 * share).toPrecision(6))
  const [below, above] = shares.map(written)
  const shape =
    distribution.kind === 'normal'
      ? ` normal k=${distribution.coverage}`
      : distribution.kind === 'triangular' || distribution.kind === 'arcsine'
        ? ` ${distribution.kind}`
        : ''
  const percent = isWide ? '' : ' %'
  return below === above ? ` ±${below}${percent}${shape}` : ` +${above}/-${below}${percent}${shape}`
}

/**
 * Numbers of so many digits from `start` towards `end`, `start` itself left out: what may be printed, and so what may be
 * proposed. At most two thousand.
 */
export function printable(start: number, end: number, digits: number): number[] {
  const up = end > start
  if (start === end || !Number.isFinite(start) || !Number.isFinite(end)) return []
  const values: number[] = []
  let x = start !== 0 ? start : end * 1e-6
  for (let i = 0; i < 2000; i++) {
    // Below a power of ten the steps are finer than above it.
    const step = 10 ** (Math.floor(Math.log10(Math.abs(x)) + (up ? 1e-12 : -1e-12)) - digits + 1)
    const next = up ? Math.floor(x / step + 1e-9) + 1 : Math.ceil(x / step - 1e-9) - 1
    x = Number((next * step).toPrecision(digits))
    if (x === 0 || (up ? x > end : x < end)) break
    values.push(x)
  }
  return values
}
