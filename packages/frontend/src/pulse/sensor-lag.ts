import type { HallChoice } from '@ohmward/hall'
import { mainRail, railOf, wayTo } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import type { SolvedSpan } from '../supply/solve.js'
import { behindAfter, leastLag, mostLag } from './coming-back.js'
import { fallingAs } from './falling.js'
import type { Return } from './held-rails.js'
import { fallOf } from './pulse.js'
import type { Ring } from './rung.js'
import { sensedAfter } from './sensed.js'

type Further = NonNullable<HallChoice['further']>[number]

/** How far sensor, filter and conversion show the sensor's supply from where it is, a share of it at most: as the current is sampled, and as a zero is read in a pause. */
export interface SensorLags {
  readonly current: number
  readonly zero: number
}

/** Rail on which the sensor lives. */
export const sensorRail = (design: ReadDesign): string =>
  railOf(design, design.hall.sensorSupply === undefined ? 'sensor' : 'converter')

/** How the sensor's supply follows the main rail. */
interface Followed {
  /** By how much it falls as the load comes, as a share of what it comes to, at most. */
  readonly drop: number
  /** Whether what rings on the main rail comes through. */
  readonly isOpen: boolean
}

function followed(design: ReadDesign, solved: SolvedSpan): Followed {
  const { first } = fallOf(design, solved)
  const between = wayTo(design, sensorRail(design))
  if (between.every(({ through }) => through.kind === 'direct')) return { drop: first, isOpen: true }
  const { [sensorRail(design)]: own, [mainRail]: main } = solved.rails
  const [{ rest, sag }, { sag: fed }] = [own!, main!]
  if (!(sag.lower > 0)) return { drop: 1, isOpen: true }
  const above = Math.max(fed.upper / sag.upper, fed.lower / sag.lower)
  const fall = Math.max(0, rest.lower - sag.lower, rest.upper - sag.upper)
  // A regulator that stands holds both off.
  const isOpen = fall > 0 || !between.some(({ through }) => through.kind === 'regulator')
  return { drop: Math.min(fall / sag.lower, above * first), isOpen }
}

/** How far poles show a rail from where it is, as a share of that, at most: what is late of its fall, and of a ring. */
function lagOf(design: ReadDesign, solved: SolvedSpan, late: number, { behind }: Ring): number {
  if (late === 0 && behind === 0) return 0
  const { drop, isOpen } = followed(design, solved)
  return late * drop + (isOpen ? behind * (1 + drop) : 0)
}

/** How far a sensor that follows its supply is shown behind it while the load pulls that down, as a share of it, at most. */
export function lagAsSampled(design: ReadDesign, solved: SolvedSpan, sampledAfter: number, ring: Ring): number {
  const { sensorLag: lag } = design.parts
  if (lag === 0) return 0
  const back = fallingAs(design, solved, sensorRail(design))
  const isStraight = back.steps > 1 || solved.source.currentLimit !== undefined
  // A mean is one of the rail with the load on and off, whatever the capacitors.
  const late =
    design.hall.reading === 'averaged' ? 1 : behindAfter(sensedAfter(design, sampledAfter), back, lag, isStraight)
  return lagOf(design, solved, late, ring)
}

/** The same of a zero that is read in each pause, while the rail comes back. */
export function lagAtZero(
  design: ReadDesign,
  solved: SolvedSpan,
  read: { readonly since: number; readonly back: Return; readonly ring: Ring },
): number {
  const { sensorLag: lag } = design.parts
  if (lag === 0) return 0
  const isStraight = read.back.steps > 1 || solved.source.currentLimit !== undefined
  const late = behindAfter(read.since, read.back, lag, isStraight)
  return lagOf(design, solved, late, read.ring)
}

/** What that makes of the current, as further errors of the sensor: a share of its zero, and of what it adds for the current. */
export function lagErrors(design: ReadDesign, lags: SensorLags): { readonly further?: readonly Further[] } {
  const [current, zero] = [lags.current, lags.zero].map((one) => Math.min(one, mostLag)) as [number, number]
  const V_q0 = design.parts.sensor.zeroOutput.upper
  const found: Further[] = [
    ...(current > leastLag
      ? [
          { name: 'zero of the sensor behind a moving supply', voltage: current * V_q0 },
          { name: 'sensor behind a moving supply', share: current },
        ]
      : []),
    ...(zero > leastLag ? [{ name: 'zero read behind a moving supply', voltage: zero * V_q0 }] : []),
  ]
  return found.length === 0 ? {} : { further: [...(design.hall.further ?? []), ...found] }
}
