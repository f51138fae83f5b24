import { normalQuantile } from '@ohmward/budget/statistics'
import type { Spread } from '@ohmward/quantity'

/** Uniform numbers between 0 and 1, the same at every run. */
export function uniformOf(seed: number): () => number {
  let state = seed | 0
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), state | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 2 ** 32
  }
}

/** The value of a spread at a share of its distribution: one share stands for one part, whatever the place. */
export function at({ nominal, lower, upper, distribution }: Spread, share: number): number {
  if (lower === upper) return nominal
  const middle = (lower + upper) / 2
  const half = (upper - lower) / 2
  switch (distribution.kind) {
    case 'normal':
      return middle + (half / distribution.coverage) * normalQuantile(share)
    case 'triangular':
      return share < 0.5 ? lower + half * Math.sqrt(2 * share) : upper - half * Math.sqrt(2 * (1 - share))
    case 'arcsine':
      return middle + half * Math.sin(Math.PI * (share - 0.5))
    default:
      return lower + (upper - lower) * share
  }
}
