import { correlationFactor } from '../model/correlation.js'
import { compileInputs } from '../model/evaluate.js'
import { groupOf } from '../model/groups.js'
import type { EngineOptions, Inputs, Model } from '../model/model.js'
import { BLOCK, type Evaluate, evaluateRows } from '../sampling/sample.js'
import { fromNormal, fromUniform, isNormalLike, type Shape, shapeOf } from '../statistics/distribution.js'

/** Inputs that move together, each with the direction in which it moves. */
interface Bundle {
  readonly members: readonly number[]
  readonly normal: boolean
}

/** A model made ready: columns of values, what is drawn independently, and how the rest follows from it. */
export interface Plan {
  readonly shapes: readonly Shape[]
  readonly columns: readonly Float64Array[]
  readonly evaluate: Evaluate
  /** Change of the output over one standard deviation of each input, half the difference of both sides; 0 where it can't be had. */
  readonly slopes: readonly number[]
  /** Inputs on their own and groups, one random number each. */
  readonly bundles: readonly Bundle[]
  readonly correlated: readonly number[]
  readonly factor: readonly (readonly number[])[]
}

/**
 * From one column to the next: a line of the cache more than a block. A block apart, which is a power of two, one row's
 * values would all fall into the same few places of the cache and push each other out.
 */
const STRIDE = BLOCK + 8

/** Reads inputs and options once. */
export function plan<K extends string>(inputs: Inputs<K>, model: Model<K>, options: EngineOptions<K>): Plan {
  const { names, spreads, varying } = compileInputs(inputs)
  const { indices, factor } = correlationFactor(names, options.correlations ?? [])
  const correlated = indices.filter((k) => varying.includes(k))
  const rows = factor.filter((_, n) => varying.includes(indices[n]!))
  const group = groupOf(names, options.groups ?? [], indices)
  const shapes = spreads.map(shapeOf)
  const all = new Float64Array(shapes.length * STRIDE)
  const columns = shapes.map(({ middle }, k) => all.subarray(k * STRIDE, k * STRIDE + BLOCK).fill(middle))
  const evaluate = evaluateRows(names, columns, model, options.row, options.fill)
  const slopes = slopesOf(shapes, columns, varying, evaluate)
  const sets = new Map<number | string, number[]>()
  for (const k of varying) {
    if (correlated.includes(k)) continue
    const key = group[k] ?? `input ${k}`
    sets.set(key, [...(sets.get(key) ?? []), k])
  }
  const weight = (members: readonly number[]) => members.reduce((sum, k) => sum + Math.abs(slopes[k]!), 0)
  const bundles = [...sets.values()]
    .sort((a, b) => weight(b) - weight(a))
    .map((members) => ({ members, normal: members.some((k) => isNormalLike(shapes[k]!)) }))
  return { shapes, columns, evaluate, slopes, bundles, correlated, factor: rows }
}

/** Evaluates each varying input one standard deviation to either side; leaves the columns as they were. */
function slopesOf(
  shapes: readonly Shape[],
  columns: readonly Float64Array[],
  varying: readonly number[],
  evaluate: Evaluate,
): number[] {
  const slopes = shapes.map(() => 0)
  const out = new Float64Array(2)
  for (const k of varying) {
    const { middle, scale } = shapes[k]!
    const column = columns[k]!
    column[0] = middle - scale
    column[1] = middle + scale
    evaluate(out, 0, 2)
    slopes[k] = (out[1]! - out[0]!) / 2
    column.fill(middle, 0, 2)
  }
  return slopes
}

/** Fills `column` with random number `index` of the next `n` rows: standard normal deviates or uniform numbers. */
export type Draw = (index: number, column: Float64Array, n: number, normal: boolean) => void

/** Told of each random number of the rows as it was drawn, and of an input's values that come from a number of its own. */
export interface Watch {
  drawn(index: number, column: Float64Array, n: number): void
  valued(index: number, column: Float64Array, n: number): void
}

/** How many random numbers a row takes. */
export const dimensions = ({ bundles, factor }: Plan): number => bundles.length + (factor[0] ? width(factor) : 0)

const width = (factor: readonly (readonly number[])[]): number => Math.max(...factor.map((row) => row.length))

/** Fills the first `n` rows of the columns. */
export function fillColumns(plan: Plan, draw: Draw, n: number, watch?: Watch): void {
  const { shapes, columns, slopes, bundles, correlated, factor } = plan
  bundles.forEach(({ members, normal }, index) => {
    const [first, ...others] = members as [number, ...number[]]
    const lead = columns[first]!
    draw(index, lead, n, normal)
    watch?.drawn(index, lead, n)
    for (const k of others) {
      const column = columns[k]!
      const turned = slopes[k]! < 0 !== slopes[first]! < 0
      for (let i = 0; i < n; i++) column[i] = turned ? (normal ? -lead[i]! : 1 - lead[i]!) : lead[i]!
    }
    for (const k of members) (normal ? fromNormal : fromUniform)(shapes[k]!, columns[k]!, n)
    if (others.length === 0) watch?.valued(index, lead, n)
  })
  if (correlated.length === 0) return
  const deviates = Array.from({ length: width(factor) }, (_, j) => {
    const column = new Float64Array(n)
    draw(bundles.length + j, column, n, true)
    watch?.drawn(bundles.length + j, column, n)
    return column
  })
  correlated.forEach((k, row) => {
    const column = columns[k]!
    column.fill(0, 0, n)
    factor[row]!.forEach((weight, j) => {
      const deviate = deviates[j]!
      if (weight !== 0) for (let i = 0; i < n; i++) column[i] = column[i]! + weight * deviate[i]!
    })
    fromNormal(shapes[k]!, column, n)
  })
}
