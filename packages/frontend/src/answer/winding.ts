import { isStuckAt } from '../blocks/edges.js'
import type { ReadDesign } from '../design/record.js'
import { isPulsed, stuckText } from '../pulse/conducting.js'
import { readAfter } from '../pulse/off-times.js'
import type { Walk } from '../walk/walk.js'
import { usableSpan } from './power/usable.js'
import type { Told } from './whole-rows/told.js'

/** Whether the load is a winding that is pulsed: its current goes on through the freewheeling diode while the switch is off. */
const isPulsedWinding = (design: ReadDesign): boolean =>
  design.parts.switch.edges === 'clamped inductive' && isPulsed(design)

/**
 * A row of the power that holds isn't sure where the load is a winding, whose power is that of a current that goes on: less than the duty's
 * share at most.
 */
export function unlessUnsure(walk: Walk, told: Told): Told {
  const unsure = 'a winding freewheels while the switch is off: its power is not that of a resistance'
  return { ...unlessStuck(walk, told), ...(isPulsedWinding(walk.design) && isMet(told) && { unsure }) }
}

/** A row of what the load has of a pulse: of a switch whose gate may not get there in use nothing is known. */
export const unlessStuck = (walk: Walk, told: Told): Told =>
  isMet(told) && isStuckInUse(walk) ? { ...told, worst: told.limit, unsure: stuckText, isUnknown: true } : told

/** Whether the gate may not get there over the usable charge. */
export const isStuckInUse = (walk: Walk): boolean =>
  isStuckAt(walk.design, walk.over(usableSpan(walk)).solved, walk.firmware.edges)

const isMet = ({ worst, limit, sense }: Told): boolean =>
  worst != null && limit != null && (sense === 'at least' ? worst >= limit : worst <= limit)

/** How long that current goes on is in no field but the edge that is told: nobody knows without it what is read in the off-time. */
export function windingTold(design: ReadDesign): Told {
  const isUntold = isPulsedWinding(design) && design.divider.timing?.edge === undefined
  return {
    ...{
      id: 'winding',
      name: 'freewheeling time of a winding, before the resistance is read',
      unit: 's',
    },
    ...{ sense: 'at most', where: 'after each pulse' },
    ...{ worst: isUntold ? readAfter(design) : null, limit: readAfter(design), isUnknown: true },
    unsure: 'how long the winding freewheels is not stated (divider.timing.edge)',
  }
}
