import { describe, expect, it } from 'vitest'
import { lattice } from '../src/sampling/quasi.js'

/** Copies of a lattice, doubled from 128 points to `points`: one list of points a copy. */
function points(total: number, dimensions: number, copies = 8): number[][][] {
  const all: number[][][] = Array.from({ length: copies }, () => [])
  for (let size = 128; size <= total; size *= 2) {
    const stage = lattice(3, copies, dimensions, size, size > 128)
    const columns = Array.from({ length: dimensions }, (_, index) => {
      const column = new Float64Array(stage.size)
      for (let from = 0; from < stage.size; from += 100) {
        const part = column.subarray(from, from + 100)
        stage.fill(index, part, from, part.length)
      }
      return column
    })
    for (let i = 0; i < stage.size; i++) all[Math.floor(i / stage.share)]!.push(columns.map((column) => column[i]!))
  }
  return all
}

describe('the lattice', () => {
  it('puts one point into each of as many equal intervals, in every coordinate and copy', () => {
    for (const copy of points(1024, 12)) {
      for (let k = 0; k < 12; k++) expect(new Set(copy.map((x) => Math.floor(x[k]! * 1024))).size).toBe(1024)
    }
  })

  it('finds the volume of a corner in three dimensions far better than random points, and better with more', () => {
    const spread = (n: number) => {
      const shares = points(n, 3).map((copy) => copy.filter(([a, b, c]) => a! + b! + c! < 0.8).length / n)
      return Math.sqrt(shares.reduce((sum, share) => sum + (share - 0.8 ** 3 / 6) ** 2, 0) / shares.length)
    }
    const random = (n: number) => Math.sqrt((0.0853 * 0.9147) / n)
    expect(spread(2048)).toBeLessThan(0.35 * random(2048))
    expect(spread(65_536)).toBeLessThan(0.15 * random(65_536))
  })
})
