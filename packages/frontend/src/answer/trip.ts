import { readNumber } from '@ohmward/quantity'
import { pulseLimit } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import type { Walk } from '../walk/walk.js'
import { shareShown } from './power/shown.js'
import type { Told } from './whole-rows/told.js'

/** What a part stands of a current that lasts no longer than a trip takes. */
interface Rated {
  readonly name: string
  readonly limit: number
  /** Whether it is rated for a lasting current alone: how much more it stands for so short a time isn't told. */
  readonly isLasting: boolean
}

/** Cells, elements of the path and switch, as far as their ratings are told. A port holds its current by itself. */
function ratedOf({ supply: { source, path = [] }, parts }: ReadDesign): Rated[] {
  const { transistor, parallel } = parts.switch
  return [
    ...(source.kind === 'cell' ? [{ name: 'the cells', limit: pulseLimit(source), isLasting: false }] : []),
    ...path.flatMap(({ name, currentLimit }) =>
      currentLimit === undefined ? [] : [{ name, limit: currentLimit, isLasting: false }],
    ),
    { name: 'the switch', limit: parallel * transistor.fields.currentMaximum.lower, isLasting: true },
  ]
}

/** The least that any part stands, as far as that is told, A. */
export const leastRated = (design: ReadDesign): number => Math.min(...ratedOf(design).map(({ limit }) => limit))

/** The current by which the trip must have acted; undefined without one. */
const withstoodBy = ({ hall: { trip } }: ReadDesign): number | undefined =>
  trip && readNumber(trip.withstand, { field: 'hall.trip.withstand', unit: 'A' })

/**
 * What the parts are said to withstand until the trip has acted, against their own ratings: a short draws it, and where a mean trips, in
 * pulses that are as much larger as the least duty is less than 1. Pitfall K11.
 */
export function withstandTold(walk: Walk): Told {
  const { design } = walk
  const told = withstoodBy(design)
  const share = shareShown(walk, design.pwm.duty.from).from
  const worst = told === undefined ? undefined : told / share
  const rated = ratedOf(design).sort((a, b) => a.limit - b.limit)
  // What surely does not stand it comes before what may.
  const { name, limit, isLasting } =
    rated.find((one) => worst !== undefined && one.limit < worst && !one.isLasting) ?? rated[0]!
  return {
    id: 'withstand',
    name: `${share < 1 ? 'pulse at the least duty' : 'current'} that must trip, against what ${name} withstand${name === 'the cells' ? '' : 's'}`,
    ...{ unit: 'A', sense: 'at most', catches: ['K11'], worst, limit, where: 'until the trip has acted' },
    unsure:
      isLasting && worst !== undefined && worst > limit
        ? 'the switch is rated for continuous current: what it withstands for so short a time is not stated'
        : undefined,
  }
}
