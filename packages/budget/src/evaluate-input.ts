import { type Input, InputError, type Spread } from '@ohmward/quantity'

/** One input as a spread: a bare number is exact. */
export function readInput(field: string, input: Input): Spread {
  if (typeof input === 'number') {
    if (!Number.isFinite(input)) throw new InputError({ field, value: input, allowed: 'a finite number' })
    return { nominal: input, lower: input, upper: input, distribution: { kind: 'exact' } }
  }
  if (typeof input === 'object' && input !== null && typeof input.nominal === 'number') return input
  throw new InputError({ field, value: input, allowed: 'a number or a spread' })
}
