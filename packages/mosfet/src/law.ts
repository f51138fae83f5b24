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

/** A temperature law as its user writes it: the same, with texts where a number stands, and the points as one text. */
export type LawInput =
  | { readonly kind: 'linear'; readonly perKelvin: number | string; readonly referenceCelsius?: number | string }
  | { readonly kind: 'power'; readonly exponent: number | string; readonly referenceCelsius?: number | string }
  /** As a text: `25 °C: 1; 75 °C: 1.19; 125 °C: 1.42`. */
  | { readonly kind: 'points'; readonly points: string | readonly FactorPoint[] }

/** A law ready to compute with. Temperatures in degrees Celsius. */
export interface Law {
  readonly text: LawText
  factor(celsius: number): number
  /** Derivative of the factor, per kelvin; to the right of a corner. Takes the factor there, which is known. */
  slope(celsius: number, factor: number): number
  /** Where the slope jumps, ascending. */
  readonly corners: readonly number[]
  /** Slope far above every corner, per kelvin; `Infinity` where the factor grows faster than any line. */
  readonly lastSlope: number
}

/** Absolute zero in degrees Celsius. */
export const absoluteZero = -273.15
/** Reference temperature of a data sheet unless it says otherwise, in degrees Celsius. */
export const referenceCelsius = 25

/** Makes a law of its text. The text must have been read by `readLaw`: nothing is checked here. */
export function lawOf(text: LawText): Law {
  if (text.kind === 'linear') return linear(text, text.perKelvin, text.referenceCelsius ?? referenceCelsius)
  if (text.kind === 'power') return power(text, text.exponent, text.referenceCelsius ?? referenceCelsius)
  return points(text, text.points)
}

function linear(text: LawText, a: number, reference: number): Law {
  return { text, factor: (t) => 1 + a * (t - reference), slope: () => a, corners: [], lastSlope: a }
}

function power(text: LawText, m: number, reference: number): Law {
  const span = reference - absoluteZero
  return {
    text,
    factor: (t) => ((t - absoluteZero) / span) ** m,
    slope: (t, factor) => (m * factor) / (t - absoluteZero),
    corners: [],
    lastSlope: m > 1 ? Number.POSITIVE_INFINITY : 1 / span,
  }
}

function points(text: LawText, list: readonly FactorPoint[]): Law {
  const t = list.map((point) => point.celsius)
  const y = list.map((point) => point.factor)
  const slopes = t.slice(1).map((end, i) => (y[i + 1]! - y[i]!) / (end - t[i]!))
  const last = slopes.length - 1
  const segment = (celsius: number) => {
    let i = 0
    while (i < last && celsius >= t[i + 1]!) i++
    return i
  }
  return {
    text,
    factor(celsius) {
      const i = segment(celsius)
      return y[i]! + slopes[i]! * (celsius - t[i]!)
    },
    slope: (celsius) => slopes[segment(celsius)]!,
    corners: t.slice(1, -1),
    lastSlope: slopes[last]!,
  }
}
