/**
 * How a value is spread between its limits. The names and shapes are those of JCGM 101:2008, 6.4.
 *
 * - `exact`: no spread, both limits equal the nominal value.
 * - `rectangular`: limits without a stated distribution (JCGM 100:2008, 4.3.7).
 * - `triangular`, `trapezoidal` (`top` = width of the top over width of the base, 0 to 1), `arcsine`: bounded.
 * - `normal`: the limits are `coverage` standard uncertainties away from the middle.
 * - `t`: scaled and shifted, `degreesOfFreedom` of them; the limits are `coverage` scale units away.
 *
 * The bounded shapes never leave their limits. `normal` and `t` do: for them a limit is a statement, and
 * an extreme over limits means "over the stated limits".
 */
export type Distribution =
  | { readonly kind: 'exact' }
  | { readonly kind: 'rectangular' }
  | { readonly kind: 'triangular' }
  | { readonly kind: 'trapezoidal'; readonly top: number }
  | { readonly kind: 'arcsine' }
  | { readonly kind: 'normal'; readonly coverage: number }
  | { readonly kind: 't'; readonly coverage: number; readonly degreesOfFreedom: number }

/** A value with its limits, in SI base units. `lower <= nominal <= upper`. */
export interface Spread {
  /** What the part is called: the value on the reel, the value the firmware assumes. */
  readonly nominal: number
  readonly lower: number
  readonly upper: number
  readonly distribution: Distribution
  /** Degrees of freedom of the standard uncertainty; absent means: known exactly (JCGM 100, G.4.2). */
  readonly degreesOfFreedom?: number
}

/**
 * What any field of a part accepts: an exact SI number, a string such as `"47 ohm ±1 %"`, or a spread.
 */
export type Input = number | string | Spread

/** A range to cover (a discharge, a climate): every value in it must work. Never a tolerance. */
export interface Range {
  readonly from: number | string
  readonly to: number | string
}
