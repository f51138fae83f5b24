import { demand } from '../read/demand.js'
import { InputError } from '../read/error.js'
import { distributionFrom, knownShapes } from './distribution.js'
import type { Distribution, Spread } from './spread.js'

/** Limits without a stated distribution (JCGM 100:2008, 4.3.7). */
export const rectangular: Distribution = { kind: 'rectangular' }

const certain: Distribution = { kind: 'exact' }

/** What this file makes itself is asked for by the million and known to be sound. */
const isShape = (given: Distribution): boolean =>
  given === rectangular || given === certain || distributionFrom(given) !== undefined

/** A value without spread. @throws InputError unless finite */
export function exact(nominal: number): Spread {
  finite({ nominal })
  return { nominal, lower: nominal, upper: nominal, distribution: certain }
}

/**
 * `nominal ± half`, both in the same unit. Limits without a stated distribution are rectangular (JCGM 100:2008, 4.3.7).
 *
 * @throws InputError unless both are finite and `half` is 0 or more
 */
export function plusMinus(nominal: number, half: number, distribution: Distribution = rectangular): Spread {
  finite({ nominal, half })
  if (half < 0) throw new InputError({ field: 'half', value: half, allowed: 'at least 0' })
  return between(...limitsAround(nominal, half, half), nominal, distribution)
}

/**
 * `nominal` and a fraction of it either way: `relative(47, 0.01)` is 47 ± 1 %.
 *
 * @param fraction - 0 to 1
 * @throws InputError unless both are finite and the fraction is 0 to 1
 */
export function relative(nominal: number, fraction: number, distribution: Distribution = rectangular): Spread {
  const isShare = typeof fraction === 'number' && fraction >= 0 && fraction <= 1
  demand(isShare, { field: 'fraction', value: fraction, allowed: 'from 0 to 1' })
  finite({ nominal })
  return plusMinus(nominal, Math.abs(nominal) * fraction, distribution)
}

/**
 * A value between two limits. The nominal value is their middle by default; without a stated distribution it is
 * rectangular (JCGM 100:2008, 4.3.7).
 *
 * @throws InputError unless all are finite and `lower <= nominal <= upper`
 */
export function between(
  lower: number,
  upper: number,
  nominal?: number,
  distribution: Distribution = rectangular,
): Spread {
  finite({ lower, upper })
  return betweenWith(lower, upper, nominal ?? lower + (upper - lower) / 2, distribution)
}

function betweenWith(lower: number, upper: number, nominal: number, distribution: Distribution): Spread {
  finite({ nominal })
  if (!(lower <= nominal && nominal <= upper))
    throw new InputError({ field: 'nominal', value: nominal, allowed: `from ${lower} to ${upper}` })
  if (!isShape(distribution)) throw new InputError({ field: 'distribution', value: distribution, allowed: knownShapes })
  return tidy({ nominal, lower, upper, distribution })
}

/** A spread with every value times `factor`; a negative one exchanges the limits. @throws InputError unless finite */
export function scaled(spread: Spread, factor: number): Spread {
  finite({ factor })
  demandSpread(spread)
  const nominal = spread.nominal * factor
  const [lower, upper] = factor < 0 ? [spread.upper, spread.lower] : [spread.lower, spread.upper]
  finite({ nominal, lower: lower * factor, upper: upper * factor })
  const { distribution, degreesOfFreedom } = spread
  const shape = { distribution, ...(degreesOfFreedom !== undefined && { degreesOfFreedom }) }
  return tidy({ nominal, lower: lower * factor, upper: upper * factor, ...shape })
}

/**
 * Limits as they come out on paper: to 15 significant digits, so that 0.7 ± 5 % begins at 0.665 and not at
 * 0.6649999999999999; unrounded where that would move one by more than a billionth of its distance.
 */
export function limitsAround(nominal: number, below: number, above: number): [lower: number, upper: number] {
  return [neat(nominal - below, below), neat(nominal + above, above)]
}

function neat(limit: number, distance: number): number {
  const rounded = Number(limit.toPrecision(15))
  return Math.abs(rounded - limit) <= 1e-9 * distance ? rounded : limit
}

/** Throws unless it is a spread: three finite numbers in their order and a shape that exists. @throws InputError */
export function demandSpread(spread: unknown, field = 'spread'): asserts spread is Spread {
  demand(typeof field === 'string' && field !== '', { field: 'field', value: field, allowed: 'a text' })
  demand(typeof spread === 'object' && spread !== null, { field, value: spread, allowed: 'a spread' })
  const { nominal, lower, upper, distribution } = spread as Spread
  finite({ nominal, lower, upper })
  demand(lower <= nominal && nominal <= upper, {
    field: `${field}.nominal`,
    value: nominal,
    allowed: `from ${lower} to ${upper}`,
  })
  if (!isShape(distribution))
    throw new InputError({ field: `${field}.distribution`, value: distribution, allowed: knownShapes })
}

/** A spread without width is exact. */
const tidy = (spread: Spread): Spread => (spread.lower === spread.upper ? exact(spread.nominal) : spread)

/** Parts per million as a plain ratio: `ppm(50)` is 5e-5. @throws InputError unless finite */
export const ppm = (parts: number) => shareOf(parts, 1e6)

/** Per cent as a plain ratio: `percent(5)` is 0.05. @throws InputError unless finite */
export const percent = (parts: number) => shareOf(parts, 100)

function shareOf(parts: number, whole: number): number {
  finite({ parts })
  return parts / whole
}

function finite(values: Readonly<Record<string, number>>): void {
  for (const field in values)
    if (!Number.isFinite(values[field]))
      throw new InputError({ field, value: values[field], allowed: 'a finite number' })
}

/** The value that stands for an input: a number itself, the nominal value of a spread. @throws InputError for anything else */
export function nominalOf(input: number | string | Spread): number {
  const value: unknown = typeof input === 'object' && input !== null ? input.nominal : input
  demand(typeof value === 'number' && Number.isFinite(value), {
    field: 'input',
    value: input,
    allowed: 'a finite number or a spread',
  })
  return value
}
