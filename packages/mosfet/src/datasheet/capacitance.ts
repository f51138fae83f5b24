import { capacitanceBetween } from '../formulas/curves.js'

/** One point of the reverse transfer capacitance against the drain-source voltage. */
export interface CapacitancePoint {
  readonly volts: number
  readonly farads: number
}

/** A sheet's point at 0 V stands for this voltage. V */
const nearNothing = 0.1

/**
 * Reverse transfer capacitance at a voltage, F: straight in both logarithms between the points, which is less than a
 * junction has there; its last stretch carried on. Less capacitance is the faster edge.
 */
export function capacitanceAt(points: readonly CapacitancePoint[], volts: number): number {
  const list = points.map((point) => ({ ...point, volts: Math.max(point.volts, nearNothing) }))
  let i = 1
  while (i < list.length - 1 && list[i]!.volts < volts) i++
  const [a, b] = [list[i - 1]!, list[i]!]
  const V_DS = Math.max(volts, a.volts)
  return capacitanceBetween({ C_1: a.farads, C_2: b.farads, V_1: a.volts, V_2: b.volts, V_DS })
}

/** The largest, at the lowest voltage. */
export const highestOf = (points: readonly CapacitancePoint[]): number => points[0]!.farads
