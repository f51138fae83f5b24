import type { Verdict } from '@ohmward/budget'
import { type ReadStandby, type Shelf, shelfLife } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'

/** What switching a part off in the drawer buys. */
export interface SwitchedOff {
  readonly name: string
  /** At most, A. */
  readonly current: number
  /** Days to the cut-off with it off, at least, and how many more than with it on. */
  readonly days: number
  readonly gained: number
}

/** Standby against what was wanted. */
export interface Standby extends Shelf {
  readonly wantedDays: number | undefined
  /** Days from the cut-off to damage that were wanted. */
  readonly wantedAfter: number | undefined
  readonly verdict: Verdict
  /** What to switch off, the largest gain first. Pitfall K07. */
  readonly switchOff: readonly SwitchedOff[]
}

/** All that draws in the drawer: what is listed, and every regulator that stays on. Pitfall K07. */
export const drawerOf = ({ standby, rails = [] }: ReadDesign): ReadStandby => [
  ...standby,
  ...rails.flatMap(({ name, through }) =>
    through.kind === 'regulator' && through.inDrawer === 'on'
      ? [{ name: `regulator of ${name}`, current: through.quiescentCurrent, resistance: undefined }]
      : [],
  ),
]

/** Days in the drawer from full cells, at the oldest; `null` for a port. Pitfalls K07, K08, K09. */
export function standbyOf(design: ReadDesign): Standby | null {
  const { source } = design.supply
  if (source.kind !== 'cell') return null
  const { requirements, age } = design
  const standby = drawerOf(design)
  const shelf = shelfLife(source, standby, { age: age.to })
  const { standbyDays: wantedDays, daysAfterCutOff: wantedAfter } = requirements
  const { daysToCutOff, daysToDamage, drains } = shelf
  const holds =
    (wantedDays === undefined || daysToCutOff.lower >= wantedDays) &&
    (wantedAfter === undefined || daysToDamage.lower >= wantedAfter)
  const parts = new Set(standby.map(({ name }) => name))
  const switchOff = drains
    .filter(({ name }) => parts.has(name))
    .map(({ name, current, daysWithout }) => ({
      name,
      current: current.upper,
      days: daysWithout.lower,
      gained: daysWithout.lower - daysToCutOff.lower,
    }))
    .sort((a, b) => b.gained - a.gained)
  return { ...shelf, wantedDays, wantedAfter, verdict: holds ? 'holds' : 'fails', switchOff }
}
