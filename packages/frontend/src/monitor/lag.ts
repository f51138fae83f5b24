import type { Firmware } from '../blocks/firmware.js'
import type { ReadDesign } from '../design/record.js'
import { unnoticed } from '../design/use.js'
import { stepLeft } from '../formulas/index.js'
import { recoveryTime } from '../pulse/coming-back.js'
import { isPulsed } from '../pulse/conducting.js'
import { pauseOf, restedFor } from '../pulse/off-times.js'
import { fallOf } from '../pulse/pulse.js'
import type { Ring } from '../pulse/rung.js'
import type { SolvedSpan } from '../supply/solve.js'
import { lagOfPin } from './cells-seen.js'

/**
 * How far what the firmware sees of the cells may still be from a step between the load off and on, V: the capacitors of the rail
 * and the one at the pin of a divider follow it one behind the other. Under load it has until the current is sampled, at rest the
 * pause of the load; a ring of the rail is as much off. `null` where nothing delays it, or the cells are read long after the load. Pitfall D01.
 */
export function lagOf(
  design: ReadDesign,
  solved: SolvedSpan,
  { edges, ring, sampledAfter }: Pick<Firmware, 'edges' | 'ring' | 'sampledAfter'>,
): number | null {
  const step = solved.current.upper * solved.source.resistance.upper
  const tau_p = lagOfPin(design)
  const rings = () => ring(solved.source.resistance)
  const swing = ({ below, above }: Ring) => Math.max(below, above) * solved.rest.upper
  const left = (t_p: number, tau_r: number) => (step === 0 ? 0 : step * stepLeft({ t_p, tau_r, tau_p }))
  if (design.monitor?.reads === 'at rest') {
    const t_p = restedFor(design, edges()?.off ?? Number.POSITIVE_INFINITY)
    return t_p === undefined ? null : Math.max(left(t_p, recoveryTime(design, solved)), swing(rings().pause))
  }
  if (isPulsed(design)) return Math.max(left(sampledAfter(), fallOf(design, solved).time), swing(rings().current))
  return tau_p === 0 ? null : left(1 / design.pwm.frequency, 0)
}

/** After so long most of what cells are slow in has come back, s; the rest takes half an hour and more (common practice, no source). */
export const recovered = 60

/** And after so long all of it that matters, s. */
export const rested = 1800

/** Share of what the load takes from the cells' voltage that is still to come back at the end of the pause, unless it is told, at most. */
export const usuallyLacking = 0.2

/** The same of a design: nothing where cells are read under load, or have rested. */
export function lackingOf(design: ReadDesign): number {
  const { monitor } = design
  if (monitor?.reads !== 'at rest') return 0
  return monitor.lacking ?? ((pauseOf(design) ?? recovered) < rested ? usuallyLacking : 0)
}

/** Whether cells are read so soon after the load that nobody says how much of it is still to come back. */
export const isReadSoon = (design: ReadDesign): boolean =>
  design.monitor?.reads === 'at rest' &&
  design.monitor.lacking === undefined &&
  (pauseOf(design) ?? recovered) < recovered

/** Whether the firmware reads the cells while a burst goes on: under load, or in pauses that nobody notices. Else it reads before each. */
export const isReadWithin = (design: ReadDesign): boolean =>
  design.monitor?.reads === 'under load' || (pauseOf(design) ?? recovered) <= unnoticed
