import { InputError, readNumber } from '@ohmward/quantity'
import { platinumRatioAbove, platinumRatioBelow } from '../formulas/index.js'

/** A law between the temperature of an element and its resistance, as a ratio to a resistance of its own. */
export interface Curve {
  /** Resistance ratio at a temperature in degrees Celsius; beyond its ends the curve goes on straight. */
  readonly ratio: (celsius: number) => number
  /** Temperature in degrees Celsius at a resistance ratio; beyond its ends the curve goes on straight. */
  readonly celsius: (ratio: number) => number
}

const platinum = { A_pt: 3.9083e-3, B_pt: -5.775e-7, C_pt: -4.183e-12, t_100: 100 }
/** Ends of the law in degrees Celsius (IEC 60751). */
const [coldest, hottest] = [-200, 850]

/** Resistance of industrial platinum over that at 0 °C, -200 to 850 °C (IEC 60751). */
export function platinumRatio(celsius: number): number {
  return ratioAt(readNumber(celsius, { field: 'celsius', unit: 'degC', min: coldest, max: hottest }))
}

/** Temperature of industrial platinum in degrees Celsius at a resistance ratio, to better than 1e-9 K (IEC 60751). */
export function platinumCelsius(ratio: number): number {
  return celsiusAt(readNumber(ratio, { field: 'ratio', unit: '1', min: ratioAt(coldest), max: ratioAt(hottest) }))
}

const place = { ...platinum, t_C: 0 }
function ratioAt(t_C: number): number {
  place.t_C = t_C
  return t_C < 0 ? platinumRatioBelow(place) : platinumRatioAbove(place)
}
const slopeAt = (t: number) => (ratioAt(t + 1e-3) - ratioAt(t - 1e-3)) / 2e-3

/** Above 0 °C the root of the quadratic, below it Newton's iteration from there. */
function celsiusAt(W: number): number {
  const { A_pt, B_pt } = platinum
  let t = (-A_pt + Math.sqrt(A_pt * A_pt - 4 * B_pt * (1 - W))) / (2 * B_pt)
  if (W >= 1) return Math.max(t, 0)
  for (let i = 0, step = 1; i < 8 && Math.abs(step) > 1e-10; i++) {
    step = (ratioAt(t) - W) / slopeAt(t)
    t -= step
  }
  return t
}

interface End {
  readonly t: number
  readonly W: number
  readonly slope: number
}

/** Platinum as a curve, straight beyond -200 and 850 °C. */
export const platinumCurve = /*#__PURE__*/ (() => {
  const [low, high] = [coldest, hottest].map((t) => ({ t, W: ratioAt(t), slope: slopeAt(t) })) as [End, End]
  const curve: Curve = {
    ratio: (celsius) => {
      if (celsius >= low.t && celsius <= high.t) return ratioAt(celsius)
      const { t, W, slope } = celsius < low.t ? low : high
      return W + (celsius - t) * slope
    },
    celsius: (ratio) => {
      if (ratio >= low.W && ratio <= high.W) return celsiusAt(ratio)
      const { t, W, slope } = ratio < low.W ? low : high
      return t + (ratio - W) / slope
    },
  }
  return curve
})()

/** Points on a curve, at most: a measured one has some tens. */
const MOST = 1000

/** A curve that was measured from one temperature to another, in degrees Celsius. */
export interface MeasuredCurve extends Curve {
  readonly from: number
  readonly to: number
}

/** A measured curve: straight lines between points, both columns ascending. @throws InputError */
export function pointsCurve(
  points: readonly (readonly [celsius: number, ratio: number])[],
  field: string,
): MeasuredCurve {
  if (!Array.isArray(points) || points.length < 2 || points.length > MOST) {
    const allowed = `two points or more, each [temperature in °C, ratio], and at most ${MOST} of them`
    throw new InputError({ field, value: points, allowed })
  }
  const pairs = points.map((point, i) => {
    const place = `${field}[${i}]`
    if (!Array.isArray(point) || point.length !== 2) {
      throw new InputError({ field: place, value: point, allowed: '[temperature in °C, ratio]' })
    }
    const t = readNumber(point[0], { field: `${place}[0]`, unit: 'degC', min: -273.15, max: 3000 })
    return [t, readNumber(point[1], { field: `${place}[1]`, unit: '1', above: 0, max: 1e3 })] as const
  })
  for (const column of [0, 1] as const) {
    for (let i = 1; i < pairs.length; i++) {
      if (pairs[i]![column] > pairs[i - 1]![column]) continue
      throw new InputError({
        field: `${field}[${i}][${column}]`,
        value: pairs[i]![column],
        allowed: `more than that of the point before, ${pairs[i - 1]![column]}`,
      })
    }
  }
  return { ...straightBetween(pairs), from: pairs[0]![0], to: pairs.at(-1)![0] }
}

/** Straight lines between points, and on beyond their ends. */
export function straightBetween(pairs: readonly (readonly [celsius: number, ratio: number])[]): Curve {
  const along = (from: 0 | 1, to: 0 | 1) => (value: number) => {
    let low = 0
    let high = pairs.length - 1
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (value > pairs[middle]![from]) low = middle
      else high = middle
    }
    const [a, b] = [pairs[low]!, pairs[high]!]
    return a[to] + ((value - a[from]) / (b[from] - a[from])) * (b[to] - a[to])
  }
  return { ratio: along(0, 1), celsius: along(1, 0) }
}
