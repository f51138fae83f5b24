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
