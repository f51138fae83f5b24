/*
 * A linear circuit x' = A x + b + c t over time: its state a step later is a matrix times its state, found by the power
 * series of the exponential, halved until it converges and squared again. States are lists of numbers with 1 and t at
 * the end, so that constants and ramps are states as well.
 */

export type Matrix = readonly Float64Array[]

/** A square of zeros. */
export const zeros = (n: number): Float64Array[] => Array.from({ length: n }, () => new Float64Array(n))

/** One matrix after another. */
export function times(a: Matrix, b: Matrix): Float64Array[] {
  const n = a.length
  const c = zeros(n)
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < n; k++) {
      const x = a[i]![k]!
      if (x === 0) continue
      for (let j = 0; j < n; j++) c[i]![j]! += x * b[k]![j]!
    }
  }
  return c
}

/** A matrix on a state, put into another. */
export function apply(a: Matrix, x: ArrayLike<number>, into = new Float64Array(x.length)): Float64Array<ArrayBuffer> {
  for (let i = 0; i < a.length; i++) {
    const row = a[i]!
    let sum = 0
    for (let j = 0; j < row.length; j++) sum += row[j]! * x[j]!
    into[i] = sum
  }
  return into
}

/** exp(A h). */
export function exponential(a: Matrix, h: number): Float64Array[] {
  const n = a.length
  let norm = 0
  for (const row of a)
    norm = Math.max(
      norm,
      row.reduce((sum, x) => sum + Math.abs(x * h), 0),
    )
  const halvings = Math.max(0, Math.ceil(Math.log2(norm)) + 3)
  const scale = h / 2 ** halvings
  let sum = zeros(n)
  let term = zeros(n)
  for (let i = 0; i < n; i++) sum[i]![i] = term[i]![i] = 1
  for (let k = 1; k <= 10; k++) {
    term = times(term, a)
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) term[i]![j]! *= scale / k
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) sum[i]![j]! += term[i]![j]!
  }
  for (let k = 0; k < halvings; k++) sum = times(sum, sum)
  return sum
}

/** Solves A x = b by elimination. */
export function solve(a: Matrix, b: Float64Array): Float64Array {
  const n = b.length
  const m = a.map((row, i) => Float64Array.from([...row, b[i]!]))
  for (let k = 0; k < n; k++) {
    let pivot = k
    for (let i = k + 1; i < n; i++) if (Math.abs(m[i]![k]!) > Math.abs(m[pivot]![k]!)) pivot = i
    ;[m[k], m[pivot]] = [m[pivot]!, m[k]!]
    for (let i = 0; i < n; i++) {
      if (i === k) continue
      const factor = m[i]![k]! / m[k]![k]!
      for (let j = k; j <= n; j++) m[i]![j]! -= factor * m[k]![j]!
    }
  }
  return Float64Array.from(m, (row, i) => row[n]! / row[i]!)
}
