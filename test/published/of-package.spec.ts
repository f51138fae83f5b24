/// <reference types="vite/client" />
import { expect, it } from 'vitest'
import type { ByHand } from './by-hand.js'
import { isWithin, type PublishedCheck, type TrapRow } from './check.js'

/*
 * Under mutation: the cases by hand, published values and pitfalls of the packages asked for, without loading the others.
 * The usual run has them in by-hand.test.ts, published.test.ts and traps.test.ts.
 */

const names = (process.env['OHMWARD_MUTATE'] ?? '').split(',').map((name) => name.split('/')[0]!)
const isOurs = (path: string) => names.some((name) => new RegExp(`/${name}(-\\w+)?\\.ts$`).test(path))
async function ours<T>(files: Record<string, () => Promise<T>>): Promise<T[]> {
  return Promise.all(Object.entries(files).flatMap(([path, load]) => (isOurs(path) ? [load()] : [])))
}

const cases = (await ours(import.meta.glob<{ cases: ByHand[] }>('./by-hand/*.ts'))).flatMap((file) => file.cases)
it.each(cases.map((one) => [`${one.formula.symbol}: ${one.arithmetic}`, one] as const))('%s', (_, one) => {
  const [, written] = /= (\S+)$/.exec(one.arithmetic) ?? []
  expect(Math.abs(one.formula(one.at) - Number(written))).toBeLessThanOrEqual(2e-5 * Math.abs(Number(written)))
})

const checks = (await ours(import.meta.glob<{ checks: PublishedCheck[] }>('./checks/*.ts'))).flatMap(
  ({ checks }) => checks,
)
it.each(checks.map((check) => [check.id, check] as const))('%s', (_, { compute, printed, tolerance }) => {
  expect(isWithin(compute(), printed, tolerance)).toBe(true)
})

const rows = (await ours(import.meta.glob<{ rows: TrapRow[] }>('./traps/*.ts'))).flatMap((file) => file.rows ?? [])
it.each(rows.map((row, i) => [`${i} ${row.trap}: ${row.statement}`, row] as const))('%s', (_, row) => {
  const { library = row.independent, printed, tolerance } = row
  expect(isWithin(library(), printed, tolerance)).toBe(true)
})
