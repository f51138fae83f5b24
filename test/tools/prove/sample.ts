import type { InputRange } from '@ohmward/budget'

/** A small seeded generator of uniform numbers in [0, 1): the same seed, the same proof (Marsaglia, xorshift, 2003). */
export function uniform(seed: number): () => number {
  let state = (seed | 0) === 0 ? 0x9e3779b9 : seed | 0
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
}

/** A value of the range: log-uniform over decades, half and half where the range begins at 0, else uniform. */
export function within([, from, to]: InputRange, random: () => number): number {
  const even = random()
  if (from === to) return from
  const start = from === 0 && to > 0 && random() < 0.5 ? to * 1e-6 : from
  if (start > 0 && to / start >= 10) return Math.min(to, Math.max(from, start * (to / start) ** even))
  return from + even * (to - from)
}

type Ranges = Readonly<Record<string, InputRange>>

/** One random input. */
export function point(inputs: Ranges, random: () => number): Record<string, number> {
  const x: Record<string, number> = {}
  for (const [symbol, range] of Object.entries(inputs)) x[symbol] = within(range, random)
  return x
}

/** One random corner of the ranges. */
export function corner(inputs: Ranges, random: () => number): Record<string, number> {
  const x: Record<string, number> = {}
  for (const [symbol, [, from, to]] of Object.entries(inputs)) x[symbol] = random() < 0.5 ? from : to
  return x
}
