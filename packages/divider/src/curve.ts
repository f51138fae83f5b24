import { InputError, readNumber } from '@ohmward/quantity'
import { platinumRatioAbove, platinumRatioBelow } from './formulas/index.js'

/** A law between the temperature of an element and its resistance, as a ratio to a resistance of its own. */
export interface Curve {
  /** Resistance ratio at a temperature in degrees Celsius. */
  readonly ratio: (celsius: number) => number
  /** Temperature in degrees Celsius at a resistance ratio; the curve goes on straight beyond its ends. */
  readonly celsius: (ratio: number) => number
  /** Highest temperature for which the law is stated, in degrees Celsius; absent for a measured curve. */
  readonly highest?: number
}

const platinum = { A_pt: 3.9083e-3, B_pt: -5.775e-7, C_pt: -4.183e-12, t_100: 100 }

/** Resistance of industrial platinum over that at 0 °C, -200 to 850 °C (IEC 60751). */
export function platinumRatio(celsius: number): number {
  const t_C = readNumber(celsius, { field: 'celsius', unit: 'degC', min: -200, max: 850 })
  return ratioAt(t_C)
}

/** Temperature of industrial platinum in degrees Celsius at a resistance ratio, to better than 1e-9 K (IEC 60751). */
export function platinumCelsius(ratio: number): number {
  const W = readNumber(ratio, { field: 'ratio', unit: '1', min: ratioAt(-200), max: ratioAt(850) })
  return celsiusAt(W)
}

const ratioAt = (t_C: number) => (t_C < 0 ? platinumRatioBelow : platinumRatioAbove)({ ...platinum, t_C })

/** Above 0 °C the root of the quadratic, below it Newton's iteration from there. */
function celsiusAt(W: number): number {
  const { A_pt, B_pt } = platinum
  let t = (-A_pt + Math.sqrt(A_pt * A_pt - 4 * B_pt * (1 - W))) / (2 * B_pt)
  if (W >= 1) return Math.max(t, 0)
  for (let i = 0; i < 8; i++) {
    const slope = (ratioAt(t + 1e-3) - ratioAt(t - 1e-3)) / 2e-3
    t -= (ratioAt(t) - W) / slope
  }
  return t
}

/** Platinum as a curve. Beyond -200 and 850 °C the law goes on as it stands. */
export const platinumCurve: Curve = { ratio: ratioAt, celsius: celsiusAt, highest: 850 }

/** A measured curve: straight lines between points, both columns ascending. */
export function pointsCurve(points: readonly (readonly [celsius: number, ratio: number])[], field: string): Curve {
  if (!Array.isArray(points) || points.length < 2) {
    throw new InputError({ field, value: points, allowed: 'two points or more, each [temperature in °C, ratio]' })
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
  const along = (from: 0 | 1, to: 0 | 1) => (value: number) => {
    let i = 1
    while (i < pairs.length - 1 && value > pairs[i]![from]) i++
    const [a, b] = [pairs[i - 1]!, pairs[i]!]
    return a[to] + ((value - a[from]) / (b[from] - a[from])) * (b[to] - a[to])
  }
  return { ratio: along(0, 1), celsius: along(1, 0) }
}
