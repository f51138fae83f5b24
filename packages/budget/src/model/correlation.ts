import { InputError } from '@ohmward/quantity'
import type { Correlation } from './model.js'
import { knownOptions } from './options.js'

/** Correlations by input index, checked. */
export interface CorrelationFactor {
  /** The inputs that are correlated with any other. */
  readonly indices: readonly number[]
  /** `[i, j, coefficient]` by input index, each pair once. */
  readonly pairs: readonly (readonly [i: number, j: number, coefficient: number])[]
  /** Lower triangular `L`, one row an entry of `indices`: `L · Lᵀ` is the correlation matrix. */
  readonly factor: readonly (readonly number[])[]
}

const none: CorrelationFactor = { indices: [], pairs: [], factor: [] }

/** What rounding may leave of a zero pivot; coefficients are written with a few digits, so this is generous to rounding alone. */
const rounding = 1e-9

/** Lower triangular factor of a positive semidefinite matrix, or nothing where it isn't one. */
function cholesky(matrix: number[][]): number[][] | undefined {
  const factor: number[][] = []
  for (let i = 0; i < matrix.length; i++) {
    const row: number[] = []
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!
      for (let k = 0; k < j; k++) rest -= row[k]! * (j === i ? row[k]! : factor[j]![k]!)
      if (j === i) {
        if (rest < -rounding) return undefined
        row.push(rest > rounding ? Math.sqrt(rest) : 0)
      } else {
        const pivot = factor[j]![j]!
        if (pivot === 0 && Math.abs(rest) > Math.sqrt(rounding)) return undefined
        row.push(pivot === 0 ? 0 : rest / pivot)
      }
    }
    factor.push(row)
  }
  return factor
}

/**
 * Checks correlation coefficients and factors their matrix. Pairs that aren't named have coefficient 0.
 *
 * @throws InputError for a name that is no input, a pair given twice or with itself, a coefficient outside -1 to 1, and
 *   for coefficients that contradict one another (a matrix that isn't positive semidefinite)
 */
export function correlationFactor(
  names: readonly string[],
  correlations: readonly Correlation<string>[],
): CorrelationFactor {
  if (correlations.length === 0) return none
  const pairs: [number, number, number][] = []
  const place = new Map<number, number>()
  correlations.forEach((correlation, n) => {
    const field = `correlations[${n}]`
    const { between, coefficient } = knownOptions(correlation, ['between', 'coefficient'], field)
    if (!Array.isArray(between) || between.length !== 2) {
      throw new InputError({ field: `${field}.between`, value: between, allowed: 'the names of two inputs' })
    }
    const [i, j] = between.map((name) => {
      const index = names.indexOf(name)
      if (index < 0) throw new InputError({ field: `${field}.between`, value: name, allowed: 'the name of an input' })
      return index
    }) as [number, number]
    if (!(typeof coefficient === 'number' && Math.abs(coefficient) <= 1)) {
      throw new InputError({ field: `${field}.coefficient`, value: coefficient, allowed: '-1 to 1' })
    }
    if (i === j || pairs.some(([a, b]) => (a === i && b === j) || (a === j && b === i))) {
      throw new InputError({
        field: `${field}.between`,
        value: between.join(', '),
        allowed: 'two inputs, each pair once',
      })
    }
    pairs.push([i, j, coefficient])
    for (const index of [i, j]) if (!place.has(index)) place.set(index, place.size)
  })
  const matrix = Array.from(place, (_, a) => Array.from(place, (_, b) => (a === b ? 1 : 0) as number))
  for (const [i, j, r] of pairs) {
    const a = place.get(i)!
    const b = place.get(j)!
    matrix[a]![b] = r
    matrix[b]![a] = r
  }
  const factor = cholesky(matrix)
  if (!factor) {
    throw new InputError({
      field: 'correlations',
      value: correlations,
      allowed: 'a positive semidefinite matrix',
      hint: 'These coefficients contradict one another',
    })
  }
  return { indices: [...place.keys()], pairs, factor }
}
