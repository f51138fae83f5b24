import { type Stream, stream, uniform } from './random.js'

/**
 * Generating vector of an embedded lattice rule in base 2, good in its two-dimensional projections: the first entries
 * of `exod2_base2_m20` (R. Cools, F. Y. Kuo, D. Nuyens, SIAM J. Sci. Comput. 28 (2006) 2162), for up to 2^20 points.
 */
const vector = [
  1, 182667, 469891, 498753, 110745, 446247, 250185, 118627, 245333, 283199, 408519, 391023, 246327, 126539, 399185,
  461527, 300343, 69681, 516695, 436179, 106383, 238523, 413283, 70841, 47719, 300129, 113029, 123925, 410745, 211325,
]

/** Largest number of points of one lattice. */
export const LARGEST = 2 ** 20

/** Randomly shifted copies of one lattice that is doubled again and again. */
export interface Lattice {
  /** How many points all copies together gain at the present stage. */
  readonly size: number
  /** How many of them one copy gains. */
  readonly share: number
  /** Fills the first `n` values with coordinate `index` of the points from `from` on: between 0 and 1, both excluded. */
  fill(index: number, column: Float64Array, from: number, n: number): void
}

/**
 * One stage of the lattice: the first `points` of every copy, or the ones that double it to `points`. Coordinates
 * beyond the generating vector are plain random numbers.
 */
export function lattice(seed: number, copies: number, dimensions: number, points: number, doubling: boolean): Lattice {
  const share = doubling ? points / 2 : points
  const shifts: Stream = new Int32Array(copies * dimensions)
  const source = stream(seed, -1)
  for (let i = 0; i < shifts.length; i++) shifts[i] = (uniform(source) - 0.5) * 2 ** 32
  const rest = Array.from({ length: Math.max(0, dimensions - vector.length) }, (_, j) => stream(seed, points * 256 + j))
  const fill = (index: number, column: Float64Array, from: number, n: number) => {
    const random = rest[index - vector.length]
    if (random) {
      for (let i = 0; i < n; i++) column[i] = uniform(random)
      return
    }
    const unit = Math.imul(vector[index]!, 2 ** 32 / points)
    const step = doubling ? 2 * unit : unit
    for (let i = 0; i < n; ) {
      const copy = Math.floor((from + i) / share)
      const start = from + i - copy * share
      const stop = Math.min(n, i + share - start)
      let word = (Math.imul(step, start) + (doubling ? unit : 0) + shifts[copy * dimensions + index]!) | 0
      for (; i < stop; i++) {
        column[i] = ((word >>> 0) + 0.5) * 2 ** -32
        word = (word + step) | 0
      }
    }
  }
  return { size: share * copies, share, fill }
}
