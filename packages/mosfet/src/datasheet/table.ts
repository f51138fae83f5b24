/** One line of the data sheet's R_DS(on): at which gate-source voltage (magnitude), at the reference temperature. */
export interface OnResistancePoint {
  /** V. */
  readonly gateSource: number
  /** Guaranteed, ohm. */
  readonly maximum: number
  /** Typical, ohm; the maximum where the data sheet gives none. */
  readonly typical?: number
}

/**
 * Index of the line that holds at `V_GS`: the highest one not above it. Guaranteed values step: between two lines that of
 * the lower voltage is guaranteed, no more. Below the first line nothing is; the first is returned, and the gate-drive
 * margin says so.
 */
export function guaranteedLine(points: readonly OnResistancePoint[], V_GS: number): number {
  let i = points.length - 1
  while (i > 0 && points[i]!.gateSource > V_GS) i--
  return i
}

/**
 * On-resistance of a typical device at `V_GS`, straight between the lines: a picture of what to expect, never a limit.
 * `undefined` outside the lines.
 */
export function typicalBetween(points: readonly OnResistancePoint[], V_GS: number): number | undefined {
  const i = guaranteedLine(points, V_GS)
  const a = points[i]!
  const b = points[i + 1]
  if (V_GS < a.gateSource || (b === undefined && V_GS > a.gateSource)) return undefined
  const from = a.typical ?? a.maximum
  if (b === undefined) return from
  const to = b.typical ?? b.maximum
  return from + ((to - from) * (V_GS - a.gateSource)) / (b.gateSource - a.gateSource)
}

/** On-resistance at `V_GS` with the points joined by straight lines; constant before the first and behind the last. */
export function straightLine(
  points: readonly OnResistancePoint[],
  V_GS: number,
): { readonly maximum: number; readonly typical: number } {
  const i = guaranteedLine(points, V_GS)
  const a = points[i]!
  const b = points[i + 1] ?? a
  const share = a === b ? 0 : Math.min(Math.max((V_GS - a.gateSource) / (b.gateSource - a.gateSource), 0), 1)
  const [from, to] = [a.typical ?? a.maximum, b.typical ?? b.maximum]
  return { maximum: a.maximum + (b.maximum - a.maximum) * share, typical: from + (to - from) * share }
}
