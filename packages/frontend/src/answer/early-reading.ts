import type { Caution } from '@ohmward/budget'
import { format, readSpread } from '@ohmward/quantity'
import { earlyShare, railTime } from '../formulas/index.js'
import { isPulsed } from '../walk/choices.js'
import type { Walk } from '../walk/walk.js'
import { usableSpan } from './usable.js'

/** Share by which a reading may be early without a word. */
const unsaid = 0.02

/** A current read in a pulse while the capacitors of the rail still feed the load: it and the rail stand higher than later in the pulse. */
export function earlyReading(walk: Walk): Caution[] {
  const { design } = walk
  const { reading = 'on-window', wait } = design.hall
  const { capacitance: C_all } = design.parts
  if (!isPulsed(design) || reading !== 'on-window' || !Number.isFinite(C_all)) return []
  const { source, load, switch: on } = walk.over(usableSpan(walk)).solved
  const [R_s, R_b] = [source.resistance.upper, load.lower + on.lower]
  const t_s = wait === undefined ? 0 : readSpread(wait, { field: 'hall.wait', unit: 's' }).lower
  const tau_r = railTime({ C_all, R_s, R_b })
  const share = earlyShare({ R_s, R_b, t_s, tau_r })
  if (!(share > unsaid)) return []
  const when =
    wait === undefined ? 'as soon as the sensor has settled' : `${format(t_s, 's', { digits: 2 })} after the edge`
  const [current, power] = [share, (1 + share) ** 2 - 1].map((one) => `${Math.ceil(100 * one)} %`)
  return [
    {
      id: 'early-reading',
      text: `The current is read ${when}, while the capacitors still hold up the rail, which they do with a time constant of up to ${format(tau_r, 's', { digits: 2, towards: 'up' })}: on some board it is then up to ${current} above what it comes to in the pulse, and a power made of it up to ${power}. The error of the power has none of it. Read it later (hall.wait), or off a rail with less capacitance.`,
    },
  ]
}
