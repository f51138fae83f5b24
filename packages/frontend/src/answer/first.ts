import { relativeSlack } from '@ohmward/budget'
import type { RowAt } from '../walk/hold.js'
import type { PointAt, Walk } from '../walk/walk.js'
import type { FirstFailure } from './assessment.js'
import { idOf } from './rows.js'

/** What gives way first, and from which charge downwards everything above it held. */
export interface Found {
  readonly first: FirstFailure
  /** The lowest charge above it at which everything held; 1 where even the full cells fail. */
  readonly heldDownTo: number
}

const failing = ({ rows }: PointAt): RowAt[] => rows.filter(({ margin }) => margin.verdict !== 'holds')

/**
 * Looks for the first failure on the way from full to empty, then between the two places of the walk about it, by halving
 * at every temperature and age. What held above it is counted, not where it failed: the safe side.
 */
export function firstOf(walk: Walk, points: readonly PointAt[]): Found | null {
  const at = (charge: number) => points.filter(({ place }) => place.charge === charge)
  const index = walk.charges.findIndex((charge) => at(charge).some((point) => failing(point).length > 0))
  if (index < 0) return null
  let here = at(walk.charges[index]!)
  if (index === 0) return { first: mostPressing(here), heldDownTo: 1 }
  let [held, failed] = [walk.charges[index - 1]!, walk.charges[index]!]
  for (let halving = 0; halving < 4; halving++) {
    const middle = (held + failed) / 2
    const between = here
      .filter((point) => failing(point).length > 0)
      .map(({ place }) => walk.hold({ ...place, charge: middle }))
    if (between.some((point) => failing(point).length > 0)) {
      failed = middle
      here = between
    } else {
      held = middle
    }
  }
  return { first: mostPressing(here), heldDownTo: held }
}

/** Of all that fails at a charge the row that lacks most, relative to its limit. */
function mostPressing(points: readonly PointAt[]): FirstFailure {
  const all = points.flatMap((point) => failing(point).map((row) => ({ point, row })))
  const { point, row } = all.reduce((a, b) => (relativeSlack(b.row.margin) < relativeSlack(a.row.margin) ? b : a))
  const { place, source, rest, rail } = point
  const together = failing(point)
    .map(idOf)
    .filter((id) => id !== idOf(row))
  return {
    ...row,
    place,
    openCircuit: source.openCircuit.nominal,
    rail: row.state === 'load off' ? rest.lower : rail.lower,
    together,
  }
}
