import type { Margin } from '@ohmward/budget'
import type { ReadyRow } from '../rows/ready-row.js'

/** Margins that were held before, by row and by all that its block was given. */
export type KnownMargins = Map<string, Margin>

/**
 * A row that asks first whether it was held with just this: a change of one part leaves what the other blocks are given as it is. Only rows
 * that physics holds in its own way are remembered; the others cost little.
 *
 * @param given - plain data: all that the block was given
 */
export function remembered(known: KnownMargins, { row, ...rest }: ReadyRow, given: string): ReadyRow {
  if (row.kind !== 'own') return { ...rest, row }
  const hold: typeof row.hold = (rule) => {
    const key = JSON.stringify([rest.id, rule.accept ?? null, given])
    const margin = known.get(key) ?? row.hold(rule)
    known.set(key, margin)
    return margin
  }
  return { ...rest, row: { ...row, hold } }
}

/** What a block was given, as a text; JSON alone makes one of no number and of none at all. */
export const textOfGiven = (given: unknown): string =>
  JSON.stringify(given, (_, value) => (typeof value === 'number' && !Number.isFinite(value) ? String(value) : value))
