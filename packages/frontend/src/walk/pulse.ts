import { between, readSpread, type Spread } from '@ohmward/quantity'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { pulseCurrent, pulseLength, pulsePower, railTime } from '../formulas/index.js'
import { behindOf, powerAt } from './power.js'
import { drawOf } from './rails.js'
import type { SolvedSpan } from './solve.js'

/** Both ends, and what lies between them where that is asked for. */
const corners = ({ lower, upper }: Spread, inside = upper): number[] => [
  ...new Set([lower, upper, ...(inside > lower && inside < upper ? [inside] : [])]),
]

/** How the current of a pulse falls as the capacitors of the rail empty into it. */
export interface Fall {
  /** By how much it is larger at the edge than it comes to, a share of that, at most. */
  readonly first: number
  /** Longest time constant of the fall, s. */
  readonly time: number
}

/** The fall at its largest and slowest. */
export function fallOf(design: ReadDesign, { source, load, switch: on, rest, rail, current }: Feeding): Fall {
  const { capacitance: C_all, seriesTime } = design.parts
  const { resistance, currentLimit } = source
  const R_s = resistance.upper
  const [least, largest] = [load.lower + on.lower, load.upper + on.upper]
  const most = current.upper + drawOf(design, mainRail).upper
  if (currentLimit === undefined || most < currentLimit.lower * (1 - 1e-9))
    return { first: R_s / least, time: railTime({ C_all, R_s, R_b: largest }) + seriesTime }
  // A source that holds its current is none that the capacitors see.
  return { first: Math.max(R_s / least, rest.upper / rail.lower - 1), time: C_all * largest + seriesTime }
}

type Feeding = Pick<SolvedSpan, 'source' | 'load' | 'switch' | 'rest' | 'rail' | 'current'>

/** When the current of a pulse is sampled at the earliest, s after the load has risen: at once without a wait. */
export function sampledAfter({ hall, load }: ReadDesign): number {
  const { wait, reading = 'on-window' } = hall
  if (wait === undefined || reading !== 'on-window') return 0
  return Math.max(0, readSpread(wait, { field: 'hall.wait', unit: 's' }).lower - load.rise)
}

/** Share of the drop of the rail that is still to come when the current of a pulse is sampled, at most: all of it without a wait. */
export function dropToCome(design: ReadDesign, solved: Feeding): number {
  if (design.pwm.duty.from === 1 || design.parts.capacitance === 0) return 0
  return Math.exp(-sampledAfter(design) / fallOf(design, solved).time)
}

/** By how much the capacitors raise current and power of a pulse over those of a load that is always on, at most. */
export function pulseGain(design: ReadDesign, solved: SolvedSpan, d_on: number): { current: number; power: number } {
  const { source, load, switch: on } = solved
  const at = pulseAt(design, d_on)
  const all = corners(source.resistance).map((R_s) => at(R_s, load.lower + on.lower))
  return { current: Math.max(...all.map(({ current }) => current)), power: Math.max(...all.map(({ power }) => power)) }
}

/**
 * Source resistance that the load feels in pulses of the largest duty, ohm: as much less as the capacitors of the rail make up for.
 */
export function feltResistance(design: ReadDesign, { source, load }: Pick<SolvedSpan, 'source' | 'load'>): Spread {
  const { resistance } = source
  const { lower: R_s, nominal, upper } = resistance
  const { power } = pulseAt(design, design.pwm.duty.to)(R_s, load.lower)
  if (power === 1) return resistance
  return between(Math.max(0, (R_s + load.lower) / Math.sqrt(power) - load.lower), upper, nominal)
}

/** The same of one source and one load. */
function pulseAt({ pwm, parts: { capacitance: C_all } }: ReadDesign, d_on: number) {
  return (R_s: number, R_b: number) => {
    if (d_on === 1 || R_s === 0 || C_all === 0) return { current: 1, power: 1 }
    const x_on = pulseLength({ d_on, f_PWM: pwm.frequency, tau_r: railTime({ C_all, R_s, R_b }) })
    const y = { R_s, R_b, d_on, x_on: Math.max(x_on, 1e-9) }
    return { current: pulseCurrent(y), power: pulsePower(y) }
  }
}

/**
 * Mean power in the load itself at a duty, W. The capacitors of the rail hold it up in each pulse, at a high frequency as if the
 * source had only the mean current to give: so it is more than the duty's share of what the load takes while it is always on.
 */
export function meanPowerAt(design: ReadDesign, solved: SolvedSpan): (d_on: number) => Spread {
  const on = powerAt(solved)
  const { source, rest, own, load, switch: R_on } = solved
  const way = behindOf({ load, own }).lower + R_on.lower
  const most = (source.currentLimit?.upper ?? Number.POSITIVE_INFINITY) * rest.upper
  return (d_on) => {
    const at = pulseAt(design, d_on)
    const held = corners(source.resistance).flatMap((R_s) =>
      corners(own, R_s + way).map((R_L) => {
        const R_b = R_L + way
        return d_on * (rest.upper / (R_s + R_b)) ** 2 * R_L * at(R_s, R_b).power
      }),
    )
    const upper = d_on === 1 ? on.upper : Math.max(d_on * on.upper, Math.min(most, Math.max(...held)))
    return between(on.lower * d_on, upper, Math.min(on.nominal * d_on, upper))
  }
}
