import { coverage, sortTails, tailCount } from '../sampling/interval.js'
import { meanAndDeviation } from './summary.js'

/** Most values of a part that are looked at: more wouldn't tell more of the error. */
const MOST = 4096

/** The first values of each part, at most {@link MOST}: parts that tell nothing of one another. */
export type Parts = readonly Float64Array[]

/**
 * Standard error of the ends of a shortest interval, from that of independent parts of the values. Near its minimum the
 * width hardly depends on the place, so the ends settle with the cube root of the number of values, not with its square
 * root (J. Kim, D. Pollard, Annals of Statistics 18 (1990) 191).
 *
 * @param total - values of all parts together
 */
export function shortestErrorOf(parts: Parts, total: number, level: number): number {
  const lower = new Float64Array(parts.length)
  const upper = new Float64Array(parts.length)
  parts.forEach((part, n) => {
    sortTails(part, tailCount(part.length, level))
    const [from, to] = coverage(part, level).shortest
    lower[n] = from
    upper[n] = to
  })
  const deviation = Math.max(meanAndDeviation(lower)[1], meanAndDeviation(upper)[1])
  return deviation / Math.cbrt(total / parts[0]!.length)
}

/** Values of the copies of a lattice, each stage of which holds the copies one after the other. */
export function partsOfCopies(values: Float64Array, stages: readonly number[], copies: number): Parts {
  const points = stages.reduce((sum, share) => sum + share, 0)
  const size = Math.min(points, MOST)
  return Array.from({ length: copies }, (_, copy) => {
    const part = new Float64Array(size)
    let start = 0
    let filled = 0
    for (const share of stages) {
      const own = values.subarray(start + copy * share, start + copy * share + Math.min(share, size - filled))
      part.set(own, filled)
      filled += own.length
      start += copies * share
    }
    return part
  })
}

/** So many parts of values drawn one after the other. */
export function partsOf(values: Float64Array, count: number): Parts {
  const share = Math.floor(values.length / count)
  return Array.from({ length: count }, (_, n) => values.slice(n * share, n * share + Math.min(share, MOST)))
}
