import { demand, demandFinite } from '@ohmward/quantity'

/** Points of a curve, rising in `x`, straight lines between them. */
export interface Curve {
  readonly x: readonly number[]
  readonly y: readonly number[]
}

/** The value of a curve, straight lines between its points; beyond its ends it keeps the last value, so ask only between them. */
export function valueAt(curve: Curve, at: number): number {
  demandCurve(curve)
  demandFinite('at', at)
  const { x, y } = curve
  let i = 1
  while (i < x.length - 1 && x[i]! < at) i++
  const [from, to] = [x[i - 1]!, x[i]!]
  if (at <= from) return y[i - 1]!
  if (at >= to) return y[i]!
  return y[i - 1]! + ((y[i]! - y[i - 1]!) * (at - from)) / (to - from)
}

/** Where a rising curve has a value; its first or last point where the value is beyond its ends. */
export function placeOf(curve: Curve, value: number): number {
  demandCurve(curve)
  return valueAt({ x: curve.y, y: curve.x }, demandFinite('value', value))
}

/** Refuses what is no curve: two lists of numbers of one length, two or more. @throws InputError */
function demandCurve(curve: Curve): void {
  demand(typeof curve === 'object' && curve !== null, { field: 'curve', value: curve, allowed: 'lists x and y' })
  const { x, y } = curve
  demandNumbers('curve.x', x)
  demandNumbers('curve.y', y)
  demand(x.length === y.length, { field: 'curve.y', value: y, allowed: 'as many numbers as x has' })
}

function demandNumbers(field: string, list: readonly number[]): void {
  const isSo = Array.isArray(list) && list.length >= 2 && list.every(Number.isFinite)
  demand(isSo, { field, value: list, allowed: 'a list of two numbers or more' })
}

/** Whether a curve is stated at a place. */
export const covers = ({ x }: Curve, at: number): boolean => at >= x[0]! && at <= x[x.length - 1]!
