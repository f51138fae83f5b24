import { demandSpread, type Spread } from '@ohmward/quantity'

/** Expectation, standard uncertainty and degrees of freedom of an input. */
export interface Moments {
  readonly mean: number
  readonly u: number
  /** Infinite where nothing is stated. */
  readonly degreesOfFreedom: number
}

/** Standard uncertainty over half-width. */
function ratio(distribution: Spread['distribution']): number {
  switch (distribution.kind) {
    case 'exact':
      return 0
    case 'rectangular':
      return 1 / Math.sqrt(3)
    case 'triangular':
      return 1 / Math.sqrt(6)
    case 'trapezoidal':
      return Math.sqrt((1 + distribution.top * distribution.top) / 6)
    case 'arcsine':
      return Math.SQRT1_2
    default:
      return 1 / distribution.coverage
  }
}

/**
 * Expectation and standard uncertainty of a spread (JCGM 100:2008, 4.3 and 4.4; JCGM 101:2008, 6.4).
 *
 * The expectation is the middle of the limits, also where the nominal value is not: limits of -10 % and +20 % make a
 * part that is 5 % above its nominal value in the mean.
 *
 * A `t` input enters linear propagation as JCGM 100 has it: `u` is its scale and its degrees of freedom go to the
 * Welch-Satterthwaite formula. The standard deviation of that distribution, which a simulation meets, is larger by
 * √(ν/(ν-2)), and for ν ≤ 2 there is none (JCGM 101, 6.4.9).
 *
 * @throws InputError for what is no spread
 */
export function moments(spread: Spread): Moments {
  demandSpread(spread)
  return momentsOf(spread)
}

/** The same of a spread that was read. */
export function momentsOf(spread: Spread): Moments {
  const { nominal, lower, upper, distribution, degreesOfFreedom } = spread
  const half = upper / 2 - lower / 2
  const middle = lower + half
  // Limits written as nominal ± half come back with the rounding of both: the nominal value is then the middle.
  const symmetric = Math.abs(middle - nominal) <= 4e-16 * (Math.abs(lower) + Math.abs(upper))
  return {
    mean: symmetric ? nominal : middle,
    u: half * ratio(distribution),
    degreesOfFreedom: degreesOfFreedom ?? (distribution.kind === 't' ? distribution.degreesOfFreedom : Infinity),
  }
}
