import { plusMinus, type Spread } from '@ohmward/quantity'
import fc from 'fast-check'
import { expect } from 'vitest'

export const some = (min: number, max: number) => fc.double({ min, max, noNaN: true })
export const spread = (min: number, max: number) =>
  fc.tuple(some(min, max), some(0, 0.3)).map(([value, share]) => plusMinus(value, value * share))
export const ends = ({ lower, upper }: Spread) => [lower, upper]
/** Every board with its parts at their ends. */
export const boards = (...parts: readonly Spread[]): number[][] =>
  parts.reduce<number[][]>((all, part) => all.flatMap((one) => ends(part).map((value) => [...one, value])), [[]])

/** Holds what is said to the boards: its limits are the worst of them. */
export function spans(found: Spread, values: readonly number[], nominal: number, digits = 9): void {
  const scale = Math.max(1e-9, ...values.map(Math.abs))
  expect(found.lower / scale).toBeCloseTo(Math.min(...values) / scale, digits)
  expect(found.upper / scale).toBeCloseTo(Math.max(...values) / scale, digits)
  expect(found.nominal / scale).toBeCloseTo(nominal / scale, digits)
}

export const possible = <T extends { kind: string }>(answer: T) => {
  if (answer.kind !== 'possible') throw new Error(JSON.stringify(answer))
  return answer as Extract<T, { kind: 'possible' }>
}
