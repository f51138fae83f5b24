import { demand, demandFinite, missingFields } from '@ohmward/quantity'
import type { Budget } from '../budget/budget.js'
import type { Assessment, Margin } from '../margin/assessment.js'
import { verdictOf } from '../margin/verdict.js'
import { holdAll } from './assess.js'
import { type Block, demandBlock } from './block.js'

/** Every row of a choice at one point of its conditions. */
export interface SweepPoint {
  /** The point, by the names of the conditions. */
  readonly at: Readonly<Record<string, number>>
  readonly verdict: Margin['verdict']
  /** Least relative slack first. */
  readonly margins: readonly Margin[]
  readonly budgets: Readonly<Record<string, Budget>>
}

/**
 * Goes through single values of some conditions and gives every row there at its worst case over the parts and the other
 * conditions. What the firmware takes for granted stays that of the whole range.
 *
 * @param points - values by the conditions' names: `[{ rail: 3.0 }, { rail: 3.1 }]`; see {@link grid}
 * @param ids - the rows that are asked for; all of them by default
 * @param names - the conditions that a point may say, so that another name is refused; any by default
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export function sweep<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  choice: C,
  conditions: D,
  points: readonly Readonly<Record<string, number>>[],
  ids?: readonly string[],
  names?: readonly string[],
): SweepPoint[] {
  demandBlock(block)
  const read = block.read(choice, conditions)
  demandPoints(points, names)
  const isList = ids === undefined || (Array.isArray(ids) && ids.every((id) => typeof id === 'string'))
  demand(isList, { field: 'ids', value: ids, allowed: 'a list of ids of rows' })
  return points.map((at) => {
    const setup = block.setup(block.at(read, at))
    const rows = ids === undefined ? setup.rows : setup.rows.filter(({ id }) => ids.includes(id))
    const { margins, budgets } = holdAll({ ...setup, rows })
    return { at, verdict: verdictOf(margins), margins, budgets }
  })
}

function demandPoints(points: readonly Readonly<Record<string, number>>[], names?: readonly string[]): void {
  demand(Array.isArray(points), { field: 'points', value: points, allowed: 'a list of points: [{ rail: 3.0 }]' })
  points.forEach((point: unknown, i) => {
    const isPoint = typeof point === 'object' && point !== null
    demand(isPoint, { field: `points[${i}]`, value: point, allowed: 'values by name: { rail: 3.0 }' })
    if (names !== undefined) missingFields(point as object, [], `points[${i}]`, names)
    for (const [name, value] of Object.entries(point as object)) {
      if (value !== undefined) demandFinite(`points[${i}].${name}`, value)
    }
  })
}

/** Every combination of lists of values: `grid({ rail: [3, 4], ambientCelsius: [0, 50] })` has four points. @throws InputError for what is no list of numbers */
export function grid(lists: Readonly<Record<string, readonly number[]>>): Record<string, number>[] {
  let points: Record<string, number>[] = [{}]
  demand(typeof lists === 'object' && lists !== null, { field: 'lists', value: lists, allowed: 'lists by name' })
  for (const [name, values] of Object.entries(lists)) {
    demand(Array.isArray(values), { field: name, value: values, allowed: 'a list of numbers' })
    for (const value of values) demandFinite(name, value)
    points = points.flatMap((point) => values.map((value) => ({ ...point, [name]: value })))
  }
  return points
}
