import type { Walk } from '../../walk/walk.js'
import type { RowOver } from '../assessment.js'
import type { PowerAnswer } from '../power/power.js'
import { shareShown } from '../power/shown.js'
import { usableSpan } from '../power/usable.js'
import { percent } from '../texts.js'
import { withstandTold } from '../trip.js'
import { isStuckInUse, unlessStuck, unlessUnsure, windingTold } from '../winding.js'
import { toldRows } from './told.js'

/** Power, how well it is known, and bursts. */
export function powerRows(walk: Walk, { mean, least, error, read, bursts }: PowerAnswer): RowOver[] {
  const { requirements, bursts: asked } = walk.design
  const where = `full to ${percent(usableSpan(walk).charge.to)}`
  const known = [error.voltageTimesCurrent, error.squareTimesResistance].flatMap((one) => one ?? [])
  const off = known.length === 0 ? null : Math.min(...known.map(({ lower, upper }) => Math.max(-lower, upper)))
  // A trip compares what is read: of pulses their mean, where the reading is one.
  const share = shareShown(walk, walk.design.pwm.duty.to).to
  const shown = read && { ...read, largest: read.largest * share, warm: read.warm * share }
  return toldRows('power', [
    unlessUnsure(walk, {
      ...{ id: 'reaches', name: 'mean power at the largest duty, over the usable charge', unit: 'W' },
      ...{ sense: 'at least', catches: ['K02'], where },
      // What it surely misses is told all the same.
      ...{ worst: isStuckInUse(walk) ? mean.upper : mean.lower, limit: requirements.power, nominal: mean.nominal },
    }),
    {
      // Below its smallest duty the firmware can't go.
      ...{
        id: 'limit',
        name: 'mean power at the smallest duty, against the limit',
        unit: 'W',
        sense: 'at most',
        where,
      },
      ...{ worst: least.upper, limit: requirements.powerLimit, nominal: least.nominal },
    },
    unlessUnsure(walk, {
      ...{ id: 'error', name: 'power error, better of two readings', unit: '1', sense: 'at most', where },
      worst: off,
      limit: requirements.powerError,
    }),
    windingTold(walk.design),
    {
      ...{ id: 'current', name: 'load current, against the largest to be read', unit: 'A' },
      ...{ sense: 'at most', catches: ['E02'], where, worst: read?.largest, limit: read?.allowed },
    },
    {
      // The load draws it cold too: whether the trip waits for longer than that lasts isn't known.
      ...{ id: 'trip', name: 'load current, against the normal current that must not trip', unit: 'A' },
      ...{ sense: 'at most', catches: ['K11'], where, worst: shown?.largest, limit: shown?.normal },
      ...(shown && { nominal: Math.min(shown.largest, shown.warm), unsure: unlessItWaits(shown) }),
    },
    // A mean that trips knows the pulse by its length.
    walk.design.hall.reading === 'averaged' ? unlessStuck(walk, withstandTold(walk)) : withstandTold(walk),
    {
      ...{ id: 'bursts', name: 'bursts per charge', unit: '1', sense: 'at least', where },
      ...{ worst: bursts?.count?.lower, limit: requirements.bursts },
      ...(bursts?.count && { nominal: bursts.count.nominal }),
    },
    {
      ...{ id: 'stuck', name: 'energy of a burst if the controller hangs', unit: 'J', sense: 'at most' },
      ...{ catches: ['H08'], worst: bursts?.stuck, limit: asked?.stuckEnergy },
      where: asked?.watchdog === undefined ? 'full cells to the last' : 'full cells',
    },
  ])
}

/** Why a trip that only the cold load reaches isn't sure. */
const unlessItWaits = ({ largest, warm, normal }: NonNullable<PowerAnswer['read']>): string | undefined =>
  normal !== null && largest > normal && warm <= normal
    ? 'the cold load draws it: blank the trip for longer'
    : undefined
