/** Points of a factor over some variable, rising in it; read with {@link factorAt}. */
export interface Curve {
  readonly at: readonly number[]
  readonly factor: readonly number[]
}

/** The factor at a value, straight lines between the points, the outer ones kept beyond; 1 without a curve. */
export function factorAt(curve: Curve | undefined, x: number): number {
  if (curve === undefined) return 1
  const { at, factor } = curve
  const last = at.length - 1
  if (x <= at[0]!) return factor[0]!
  if (x >= at[last]!) return factor[last]!
  let i = 1
  while (at[i]! < x) i++
  return factor[i - 1]! + ((factor[i]! - factor[i - 1]!) * (x - at[i - 1]!)) / (at[i]! - at[i - 1]!)
}
