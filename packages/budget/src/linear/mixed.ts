import type { Evaluator } from '../model/evaluate.js'

/**
 * Sum over pairs of inputs of the squared mixed second-order terms, each term by the differences over the four corners
 * of its pair. Its cost grows with the square of the number of inputs.
 */
export function mixedTerms(
  at: Evaluator,
  indices: readonly number[],
  means: readonly number[],
  us: readonly number[],
): number {
  let sum = 0
  const value = (i: number, a: number, j: number, b: number): number => {
    at.set(indices[i]!, means[i]! + a * us[i]!)
    at.set(indices[j]!, means[j]! + b * us[j]!)
    return at.value()
  }
  for (let i = 0; i < indices.length; i++) {
    for (let j = 0; j < i; j++) {
      const term = (value(i, 1, j, 1) - value(i, 1, j, -1) - value(i, -1, j, 1) + value(i, -1, j, -1)) / 4
      if (Number.isFinite(term)) sum += term * term
      at.set(indices[j]!, means[j]!)
    }
    at.set(indices[i]!, means[i]!)
  }
  return sum
}
