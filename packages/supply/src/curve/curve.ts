/** Points of a curve, rising in `x`, straight lines between them. */
export interface Curve {
  readonly x: readonly number[]
  readonly y: readonly number[]
}

/** The value of a curve, straight lines between its points; beyond its ends it keeps the last value, so ask only between them. */
export function valueAt({ x, y }: Curve, at: number): number {
  let i = 1
  while (i < x.length - 1 && x[i]! < at) i++
  const [from, to] = [x[i - 1]!, x[i]!]
  if (at <= from) return y[i - 1]!
  if (at >= to) return y[i]!
  return y[i - 1]! + ((y[i]! - y[i - 1]!) * (at - from)) / (to - from)
}

/** Where a rising curve has a value; its first or last point where the value is beyond its ends. */
export const placeOf = ({ x, y }: Curve, value: number): number => valueAt({ x: y, y: x }, value)

/** Whether a curve is stated at a place. */
export const covers = ({ x }: Curve, at: number): boolean => at >= x[0]! && at <= x[x.length - 1]!

/** The first place at which a curve has reached a value, wherever it goes from there; its last point where it never does. */
export function firstAtLeast(curve: Curve, value: number): number {
  const { x, y } = curve
  if (y[0]! >= value) return x[0]!
  const i = y.findIndex((one) => one >= value)
  return i < 0 ? x[x.length - 1]! : between(curve, i, value)
}

/** The last place at which a curve is no more than a value; its first point where it never is. */
export function lastAtMost(curve: Curve, value: number): number {
  const { x, y } = curve
  const n = y.length - 1
  if (y[n]! <= value) return x[n]!
  const i = y.findLastIndex((one) => one <= value)
  return i < 0 ? x[0]! : between(curve, i + 1, value)
}

/** Where the line that ends at point `i` has a value between its ends. */
const between = ({ x, y }: Curve, i: number, value: number): number =>
  x[i - 1]! + ((x[i]! - x[i - 1]!) * (value - y[i - 1]!)) / (y[i]! - y[i - 1]!)
