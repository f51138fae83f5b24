import type { propagate } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import type { PublishedCheck } from './check.js'

/** Where these values were read: the documentation and the tests of uncertainty libraries of national laboratories. */
export const zealand =
  'documentation and tests of an uncertainty library, Measurement Standards Laboratory of New Zealand'
export const sandia = 'tests of an uncertainty library, Sandia National Laboratories'

/** A line of a list that shares a source. */
export type Row = readonly [
  id: string,
  quantity: string,
  unit: string,
  printed: number,
  half: number,
  compute: () => number,
  remark?: string | undefined,
]

/** Checks of the budgets that share a source and were read there. */
export const rowsOf = (prefix: string, source: string, rows: readonly Row[]): PublishedCheck[] =>
  rows.map(([id, quantity, unit, printed, tolerance, compute, remark]) => ({
    id: `${prefix}-${id}`,
    package: 'budget',
    source,
    quantity,
    unit,
    printed,
    tolerance,
    compute,
    ...(remark !== undefined && { remark }),
  }))

/** A value with a standard uncertainty. */
export const known = (nominal: number, u: number, degreesOfFreedom?: number): Spread => ({
  nominal,
  lower: nominal - u,
  upper: nominal + u,
  distribution: { kind: 'normal', coverage: 1 },
  ...(degreesOfFreedom !== undefined && { degreesOfFreedom }),
})
/** Anywhere between two limits. */
export const even = (nominal: number, half: number, degreesOfFreedom?: number): Spread => ({
  ...known(nominal, half, degreesOfFreedom),
  distribution: { kind: 'rectangular' },
})
/** Between two limits, not evenly. */
export const shaped = (nominal: number, half: number, kind: 'arcsine' | 'triangular'): Spread => ({
  ...known(nominal, half),
  distribution: { kind },
})
/** What an input contributes to the standard uncertainty. */
export const share = (budget: ReturnType<typeof propagate>, input: string) =>
  Math.abs(budget.contributions.find((line) => line.input === input)!.contribution)
