import { curveFactor, linearFactor, powerFactor } from '../formulas/conduction.js'

/** One point of a temperature curve: the on-resistance relative to that at the reference temperature. */
export interface FactorPoint {
  readonly celsius: number
  readonly factor: number
}

/** How the on-resistance of a transistor goes with its junction temperature, relative to its value at `celsius`. */
export type LawText =
  /** `factor = 1 + perKelvin (T - reference)`; 0.004 to 0.005 where nothing better is known. */
  | { readonly kind: 'linear'; readonly perKelvin: number; readonly referenceCelsius?: number }
  /** `factor = (T/reference)^exponent` of absolute temperatures. */
  | { readonly kind: 'power'; readonly exponent: number; readonly referenceCelsius?: number }
  /** The data sheet's normalised curve; straight between points, its end segments carried on. */
  | { readonly kind: 'points'; readonly points: readonly FactorPoint[] }

/** Two points of a law's curve, between which or beyond which its factor runs straight. */
export interface Segment {
  readonly T_1: number
  readonly T_2: number
  readonly rho_1: number
  readonly rho_2: number
}

/** What the formulas of a law read beside the temperature; slope or exponent are 0 where its kind has none. */
export interface LawConstants {
  readonly a_R: number
  readonly m_R: number
  readonly T_ref: number
  readonly T_0: number
}

/** A law ready to compute with. Temperatures in degrees Celsius. */
export interface Law {
  readonly text: LawText
  readonly constants: LawConstants
  factor(celsius: number): number
  /** Derivative of the factor, per kelvin; to the right of a corner. Takes the factor there, which is known. */
  slope(celsius: number, factor: number): number
  /** The points of the curve around a temperature; zeros where the law is no curve. */
  segment(celsius: number): Segment
  /** Where the slope jumps, ascending. */
  readonly corners: readonly number[]
  /** Slope far above every corner, per kelvin; `Infinity` where the factor grows faster than any line. */
  readonly lastSlope: number
}

/** Absolute zero in degrees Celsius. */
export const absoluteZero = -273.15
/** Reference temperature of a data sheet unless it says otherwise, in degrees Celsius. */
export const referenceCelsius = 25

/** Makes a law of its text. The text must have been read by its field: nothing is checked here. */
export function lawOf(text: LawText): Law {
  if (text.kind === 'linear') return linear(text, text.perKelvin, text.referenceCelsius ?? referenceCelsius)
  if (text.kind === 'power') return power(text, text.exponent, text.referenceCelsius ?? referenceCelsius)
  return points(text, text.points)
}

const none: LawConstants = { a_R: 0, m_R: 0, T_ref: referenceCelsius, T_0: absoluteZero }
const nowhere: Segment = { T_1: 0, T_2: 0, rho_1: 0, rho_2: 0 }

function linear(text: LawText, a_R: number, T_ref: number): Law {
  return {
    text,
    constants: { ...none, a_R, T_ref },
    factor: (T_j) => linearFactor({ a_R, T_j, T_ref }),
    slope: () => a_R,
    segment: () => nowhere,
    corners: [],
    lastSlope: a_R,
  }
}

function power(text: LawText, m_R: number, T_ref: number): Law {
  const T_0 = absoluteZero
  return {
    text,
    constants: { ...none, m_R, T_ref },
    factor: (T_j) => powerFactor({ T_j, T_0, T_ref, m_R }),
    slope: (t, factor) => (m_R * factor) / (t - T_0),
    segment: () => nowhere,
    corners: [],
    lastSlope: m_R > 1 ? Number.POSITIVE_INFINITY : 1 / (T_ref - T_0),
  }
}

function points(text: LawText, list: readonly FactorPoint[]): Law {
  const segments = list.slice(1).map(({ celsius, factor }, i): Segment => {
    const before = list[i]!
    return { T_1: before.celsius, T_2: celsius, rho_1: before.factor, rho_2: factor }
  })
  const last = segments.length - 1
  const index = (celsius: number) => {
    let i = 0
    while (i < last && celsius >= segments[i]!.T_2) i++
    return i
  }
  const slopes = segments.map(({ T_1, T_2, rho_1, rho_2 }) => (rho_2 - rho_1) / (T_2 - T_1))
  return {
    text,
    constants: none,
    factor(T_j) {
      const { T_1, T_2, rho_1, rho_2 } = segments[index(T_j)]!
      return curveFactor({ T_1, T_2, rho_1, rho_2, T_j })
    },
    slope: (celsius) => slopes[index(celsius)]!,
    segment: (celsius) => segments[index(celsius)]!,
    corners: list.slice(1, -1).map(({ celsius }) => celsius),
    lastSlope: slopes[last]!,
  }
}
