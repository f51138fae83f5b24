/**
 * Reorders `values[from..to]` (both included) so that the value of rank `k` stands at `k`, smaller ones before and
 * larger ones after it (R. W. Floyd, R. L. Rivest, Algorithm 489, Comm. ACM 18 (1975) 173). No NaN may be among them.
 */
export function select(values: Float64Array, k: number, from = 0, to = values.length - 1): void {
  while (to > from) {
    if (to - from > 600) {
      const n = to - from + 1
      const i = k - from + 1
      const z = Math.log(n)
      const s = 0.5 * Math.exp((2 * z) / 3)
      const deviation = 0.5 * Math.sqrt((z * s * (n - s)) / n) * (i < n / 2 ? -1 : 1)
      const left = Math.max(from, Math.floor(k - (i * s) / n + deviation))
      const right = Math.min(to, Math.floor(k + ((n - i) * s) / n + deviation))
      select(values, k, left, right)
    }
    const pivot = values[k]!
    let i = from
    let j = to
    while (i <= j) {
      while (values[i]! < pivot) i++
      while (values[j]! > pivot) j--
      if (i <= j) {
        const kept = values[i]!
        values[i] = values[j]!
        values[j] = kept
        i++
        j--
      }
    }
    if (j < k) from = i
    if (k < i) to = j
  }
}

/**
 * Sorts the `count` smallest values to the front and the `count` largest to the end, and leaves the rest in between
 * unsorted: all that an interval needs, in a fraction of the time of a sort.
 */
export function sortTails(values: Float64Array, count: number): void {
  const n = values.length
  if (2 * count >= n) {
    values.sort()
    return
  }
  select(values, count - 1)
  select(values, n - count, count, n - 1)
  values.subarray(0, count).sort()
  values.subarray(n - count).sort()
}

/** Coverage intervals of sorted tails. */
export interface Intervals {
  readonly interval: readonly [number, number]
  readonly shortest: readonly [number, number]
}

/** How many values lie in the interval (JCGM 101:2008, 7.7.1). */
const inside = (n: number, level: number): number => Math.min(n - 1, Math.floor(level * n + 0.5))

/** How many values of each tail {@link coverage} looks at. */
export const tailCount = (n: number, level: number): number => n - inside(n, level)

/**
 * Probabilistically symmetric and shortest coverage interval of values whose tails are sorted (JCGM 101:2008, 7.7.2
 * and 7.7.4).
 */
export function coverage(values: Float64Array, level: number): Intervals {
  const n = values.length
  const q = inside(n, level)
  const first = Math.max(0, Math.floor((n - q + 1) / 2) - 1)
  let best = 0
  let width = Infinity
  for (let r = 0; r + q < n; r++) {
    const w = values[r + q]! - values[r]!
    if (w < width) {
      width = w
      best = r
    }
  }
  return { interval: [values[first]!, values[first + q]!], shortest: [values[best]!, values[best + q]!] }
}
