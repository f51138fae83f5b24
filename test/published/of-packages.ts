import { expect, it } from 'vitest'
import type { ByHand } from './by-hand.js'
import { isWithin, type PublishedCheck, type TrapRow } from './check.js'

/** What one file of these folders holds. */
interface Held {
  readonly cases?: readonly ByHand[]
  readonly checks?: readonly PublishedCheck[]
  readonly rows?: readonly TrapRow[]
}

/**
 * Under mutation: the cases by hand, published values and pitfalls of the packages asked for. The usual run has them in
 * by-hand.test.ts, published.test.ts and traps.test.ts.
 */
export function holdPublished(files: readonly Held[]): void {
  const cases = files.flatMap((file) => file.cases ?? [])
  it.each(cases.map((one) => [`${one.formula.symbol}: ${one.arithmetic}`, one] as const))('%s', (_, one) => {
    const [, written] = /= (\S+)$/.exec(one.arithmetic) ?? []
    expect(Math.abs(one.formula(one.at) - Number(written))).toBeLessThanOrEqual(2e-5 * Math.abs(Number(written)))
  })

  const checks = files.flatMap((file) => file.checks ?? [])
  it.each(checks.map((check) => [check.id, check] as const))('%s', (_, { compute, printed, tolerance }) => {
    expect(isWithin(compute(), printed, tolerance)).toBe(true)
  })

  const rows = files.flatMap((file) => file.rows ?? [])
  it.each(rows.map((row, i) => [`${i} ${row.trap}: ${row.statement}`, row] as const))('%s', (_, row) => {
    const { library = row.independent, printed, tolerance } = row
    expect(isWithin(library(), printed, tolerance)).toBe(true)
  })
}
