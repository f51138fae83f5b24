import { reals, realsOf } from '../modes/reals.js'

/** Solves `A·x = b` by elimination with partial pivoting; `null` when A is singular to working precision. */
export function solveLinear(A: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const n = b.length
  const m = A.map((row, i) => realsOf(n + 1, (j) => (j < n ? row[j]! : b[i]!)))
  for (let k = 0; k < n; k++) {
    let pivot = k
    for (let i = k + 1; i < n; i++) if (Math.abs(m[i]![k]!) > Math.abs(m[pivot]![k]!)) pivot = i
    const swap = m[k]!
    m[k] = m[pivot]!
    m[pivot] = swap
    const row = m[k]!
    if (Math.abs(row[k]!) < 1e-13) return null
    for (let i = k + 1; i < n; i++) {
      const below = m[i]!
      if (below[k] === 0) continue
      const factor = below[k]! / row[k]!
      for (let j = k; j <= n; j++) below[j]! -= factor * row[j]!
    }
  }
  const x = reals(n)
  for (let k = n - 1; k >= 0; k--) {
    let sum = m[k]![n]!
    for (let j = k + 1; j < n; j++) sum -= m[k]![j]! * x[j]!
    x[k] = sum / m[k]![k]!
  }
  return x
}
