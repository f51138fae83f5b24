import type { Caution } from '@ohmward/budget'
import { format, readSpread } from '@ohmward/quantity'
import type { Walk } from '../../walk/walk.js'
import { inPulse, shownAs } from './in-pulse.js'

/** Share by which a reading may be early without a word. */
const unsaid = 0.02

/** A current read in a pulse while the capacitors of the rail still feed the load: it stands higher than later in the pulse. */
export function earlyReading(walk: Walk): Caution[] {
  const pulse = inPulse(walk)
  if (pulse === undefined || pulse.current === 'mean') return []
  const { first, time, current } = pulse
  const share = time === 0 ? 0 : first * Math.exp(-shownAs(current, time) / time)
  if (!(share > unsaid)) return []
  const { wait } = walk.design.hall
  const waited = wait === undefined ? 0 : readSpread(wait, { field: 'hall.wait', unit: 's' }).lower
  const when =
    wait === undefined
      ? 'as soon as the sensor has settled'
      : `after a wait of ${format(waited, 's', { digits: 2, towards: 'down' })}`
  const above = [share, (1 + share) ** 2 - 1].map((one) => `${Math.ceil(100 * one)} %`)
  return [
    {
      id: 'early-reading',
      text: `The current is read ${when}, while the capacitors still hold up the rail, with a time constant of up to ${format(time, 's', { digits: 2, towards: 'up' })}: it may be up to ${above[0]} above its later value in the pulse, and a power computed from it up to ${above[1]}. Read it later (hall.wait), or from a rail with less capacitance.`,
    },
  ]
}
