import { type Stream, stream, uniform } from './random.js'

/**
 * Generating vector of an embedded lattice rule in base 2 for up to 2^20 points: the first entries of F. Y. Kuo's table
 * `lattice-32001-1024-1048576.3600`, made by the method of R. Cools, F. Y. Kuo, D. Nuyens, SIAM J. Sci. Comput. 28
 * (2006) 2162 for weights 1/j². Good in projections to three and more dimensions too, where a vector made for pairs
 * alone (order-2 weights) was seen to stop converging.
 */
const vector = [
  1, 182667, 302247, 433461, 160317, 94461, 481331, 252345, 358305, 221771, 48157, 489023, 438503, 399693, 200585,
  169833, 308325, 247437, 281713, 424209, 244841, 205461, 336811, 359375, 86263, 370621, 422443, 284811, 231547, 360239,
]

/** Largest number of points of one lattice. */
export const LARGEST = 1_048_576

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
