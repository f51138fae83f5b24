import type { Histogram } from '../budget/budget.js'

/** Counts values in equal bins between two limits; a value outside them is counted nowhere. */
export function histogram(values: Float64Array, from: number, to: number, bins: number): Histogram {
  // Limits as near to each other as numbers get have one bin: none of them could be split.
  const perUnit = bins / (to - from)
  const isWide = from < to && perUnit < Number.POSITIVE_INFINITY
  const counts = new Array<number>(isWide ? bins : 1).fill(0)
  const scale = isWide ? perUnit : 0
  const last = counts.length - 1
  for (let i = 0; i < values.length; i++) {
    const x = values[i]!
    if (x >= from && x <= to) counts[Math.min(last, Math.floor((x - from) * scale))]!++
  }
  return { from, to, counts }
}
