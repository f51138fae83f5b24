import { demand, demandFinite } from '@ohmward/quantity'
import { placeOf as barePlaceOf, valueAt as bareValueAt, type Curve } from './curve.js'

/*
 * What exported functions of a curve are given: looked at where a user calls them. Inside they are called with what was read.
 */

/**
 * The value of a curve, straight lines between its points; beyond its ends it keeps the last value, so ask only between them.
 *
 * @throws InputError where the curve is none, or the place no number
 */
export function valueAt(curve: Curve, at: number): number {
  demandCurve(curve)
  return bareValueAt(curve, demandFinite('at', at))
}

/**
 * Where a rising curve has a value; its first or last point where the value is beyond its ends.
 *
 * @throws InputError where the curve is none, or the value no number
 */
export function placeOf(curve: Curve, value: number): number {
  demandCurve(curve)
  return barePlaceOf(curve, demandFinite('value', value))
}

/** Refuses what is no curve: two lists of numbers of one length, two or more. @throws InputError */
function demandCurve(curve: Curve): void {
  // What the refusals below would say is put together for a curve that is none only: a check asks a hundred thousand times.
  if (isCurve(curve)) return
  demand(typeof curve === 'object' && curve !== null, { field: 'curve', value: curve, allowed: 'lists x and y' })
  const { x, y } = curve
  demandList('curve.x', x)
  demandList('curve.y', y)
  demand(x.length === y.length, { field: 'curve.y', value: y, allowed: 'as many numbers as x has' })
}

const isCurve = (curve: Partial<Curve> | null | undefined): boolean =>
  isList(curve?.x) && isList(curve?.y) && curve.x.length === curve.y.length

function isList(list: readonly number[] | undefined): list is readonly number[] {
  if (!Array.isArray(list) || list.length < 2) return false
  for (let i = 0; i < list.length; i++) if (!Number.isFinite(list[i])) return false
  return true
}

function demandList(field: string, list: readonly number[]): void {
  demand(isList(list), { field, value: list, allowed: 'a list of two numbers or more' })
}
