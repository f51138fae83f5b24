import { between, readSpread, type Spread } from '@ohmward/quantity'
import type { SourceAt } from '@ohmward/supply'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { pulseCurrent, pulseLength, pulsePower, railTime, risingShare } from '../formulas/index.js'
import { behindOf, powerAt } from '../supply/power.js'
import { drawOf } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import { conductingIn, type Edges } from './conducting.js'

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
export function fallOf(design: ReadDesign, feeding: Feeding): Fall {
  const { source, load, switch: on, rest, rail } = feeding
  const R_s = source.resistance.upper
  const [least, largest] = [load.lower + on.lower, load.upper + on.upper]
  const time = fallTime(design, feeding)(R_s, largest, design.parts.capacitance)
  return { first: Math.max(R_s / least, isHeld(design, feeding) ? rest.upper / rail.lower - 1 : 0), time }
}

/** How long the fall takes with one source, one load and the capacitance at the rail, s: a source that holds its current is none that it sees. */
export function fallTime(design: ReadDesign, feeding: Feeding): (R_s: number, R_b: number, C_all: number) => number {
  const { seriesTime } = design.parts
  return isHeld(design, feeding)
    ? (_, R_b, C_all) => C_all * R_b + seriesTime
    : (R_s, R_b, C_all) => railTime({ C_all, R_s, R_b }) + seriesTime
}

/** Whether the source may have to hold its current at its limit. */
export const isHeld = (design: ReadDesign, { source: { currentLimit }, current }: Feeding): boolean =>
  currentLimit !== undefined && current.upper + drawOf(design, mainRail).upper >= currentLimit.lower * (1 - 1e-9)

type Feeding = Pick<SolvedSpan, 'source' | 'load' | 'switch' | 'rest' | 'rail' | 'current'>

/**
 * When the current of a pulse is sampled at the earliest, s after the load has risen: at once without a wait. That begins with the command,
 * and a switch that is on late leaves less of it.
 *
 * @param late - what the switch takes to be on, at most, s
 */
export function sampledAfter({ hall, load }: ReadDesign, late: number): number {
  const { wait, reading = 'on-window' } = hall
  if (wait === undefined || reading !== 'on-window') return 0
  return Math.max(0, readSpread(wait, { field: 'hall.wait', unit: 's' }).lower - late - load.rise)
}

/**
 * Share of the drop of the rail that is still to come when the current of a pulse is sampled, at most: all of it without a wait.
 *
 * @param after - when that is at the earliest, s after the load has risen
 */
export const dropToCome = (design: ReadDesign, solved: Feeding, after: number): number =>
  dropIn(design, after)(fallOf(design, solved).time)

/** The same of a fall that takes so long, s. */
export const dropIn = (design: ReadDesign, after: number): ((time: number) => number) =>
  design.pwm.duty.from === 1 || design.parts.capacitance === 0 ? () => 0 : (time) => Math.exp(-after / time)

/** By how much the capacitors raise current and power of a pulse over those of a load that is always on, at most. */
export function pulseGain(design: ReadDesign, solved: SolvedSpan, d_on: number): { current: number; power: number } {
  const { source, load, switch: on } = solved
  const at = pulseAt(design, source, d_on)
  const all = corners(source.resistance).map((R_s) => at(R_s, load.lower + on.lower))
  return { current: Math.max(...all.map(({ current }) => current)), power: Math.max(...all.map(({ power }) => power)) }
}

/**
 * Source resistance that the load feels in pulses of the largest duty, ohm: as much less as the capacitors of the rail make up for.
 */
export function feltResistance(design: ReadDesign, { source, load }: Pick<SolvedSpan, 'source' | 'load'>): Spread {
  const { resistance } = source
  const { lower: R_s, nominal, upper } = resistance
  const { power } = pulseAt(design, source, design.pwm.duty.to)(R_s, load.lower)
  if (power === 1) return resistance
  return between(Math.max(0, (R_s + load.lower) / Math.sqrt(power) - load.lower), upper, nominal)
}

/** The same of one source and one load, with all of the capacitors or less. */
export function pulseAt({ pwm, parts: { capacitance: most } }: ReadDesign, { inductance }: SourceAt, d_on: number) {
  const { frequency } = pwm
  const shortest = Math.min(d_on, 1 - d_on) / frequency
  return (R_s: number, R_b: number, C_all = most) => {
    if (d_on === 1 || R_s === 0 || C_all === 0) return { current: 1, power: 1 }
    const x_on = pulseLength({ d_on, f_PWM: frequency, tau_r: railTime({ C_all, R_s, R_b }) })
    // One that rings from pulse to pulse gives no more than a rail that stands still does: so much holds for any source.
    const isFalling = isCalm({ L_s: inductance.upper, C_all, R_s, R_b }, shortest)
    const y = { R_s, R_b, d_on, x_on: isFalling ? Math.max(x_on, 1e-9) : 1e-9 }
    return { current: pulseCurrent(y), power: pulsePower(y) }
  }
}

/** Least share of their capacitance that bias, wear and cold leave the capacitors of a rail. Common practice, no source. */
const leastLeft = 0.1

interface Ring {
  readonly L_s: number
  readonly C_all: number
  readonly R_s: number
  readonly R_b: number
}

/**
 * Whether what rings between the inductance of the source and the capacitors has died away within the shortest of pulses and pauses, and adds
 * no more to a pulse than the capacitors do without one: the source's current has to rise in it first.
 */
function isCalm({ L_s, C_all, R_s, R_b }: Ring, shortest: number): boolean {
  if (L_s === 0 || C_all === Number.POSITIVE_INFINITY) return true
  const most = addedTo({ L_s: 0, C_all, R_s, R_b })
  return [C_all, leastLeft * C_all].every((C) => {
    const square = 4 / (L_s * C)
    const isOverdamped = (R_s / L_s) ** 2 >= square && (R_s / L_s - 1 / (R_b * C)) ** 2 >= square
    // Five time constants.
    const isOver = isOverdamped || (R_s * shortest) / (2 * L_s) >= 5
    return isOver && addedTo({ L_s, C_all: C, R_s, R_b }) <= most
  })
}

/**
 * What a pulse that begins at rest has beside its steady power, in the load's resistance times its squared current, s: twice the integral of
 * the swing about the steady rail and that of its square, both in closed form for a loop of the second order.
 */
function addedTo({ L_s, C_all, R_s, R_b }: Ring): number {
  // The swing, and its slope, at the edge, for a steady current of 1 A.
  const [x, slope] = [R_s, -(R_s + R_b) / (R_b * C_all)]
  // x'' + b x' + c x = 0, each times the inductance: so it may be none.
  const [b, c] = [R_s + L_s / (R_b * C_all), (1 + R_s / R_b) / C_all]
  const swing = (L_s * slope + b * x) / c
  const square = (L_s * (L_s * slope * slope + 2 * b * slope * x + c * x * x) + b * b * x * x) / (2 * b * c)
  return (2 * swing * R_b + square) / (R_b * R_b)
}

/**
 * Mean power in the load itself at a duty, W. The capacitors of the rail hold it up in each pulse, at a high frequency as if the
 * source had only the mean current to give: so it is more than the duty's share of what the load takes while it is always on. It is less
 * by what the rise of the current takes, and more or less by how late the switch is off and on.
 *
 * @param edges - delay and edge of the switch, s
 */
export function meanPowerAt(design: ReadDesign, solved: SolvedSpan, edges?: Edges): (d_on: number) => Spread {
  const on = powerAt(solved)
  const { source, rest, own, load, switch: R_on } = solved
  const way = behindOf({ load, own }).lower + R_on.lower
  const most = (source.currentLimit?.upper ?? Number.POSITIVE_INFINITY) * rest.upper
  return (told) => {
    const { from, to: d_on } = conductingIn(design, edges, told)
    const at = pulseAt(design, source, d_on)
    const held = corners(source.resistance).flatMap((R_s) =>
      corners(own, R_s + way).map((R_L) => {
        const R_b = R_L + way
        return d_on * (rest.upper / (R_s + R_b)) ** 2 * R_L * at(R_s, R_b).power
      }),
    )
    const upper = d_on === 1 ? on.upper : Math.max(d_on * on.upper, Math.min(most, Math.max(...held)))
    const least = from * riseOf(design, from)
    return between(on.lower * least, upper, Math.min(on.nominal * told * riseOf(design, told), upper))
  }
}

/** Share of the power of a pulse that the rise of its current leaves, at least; 1 without pulses. */
export function riseOf({ pwm, load }: ReadDesign, d_on: number): number {
  return d_on === 1 ? 1 : risingShare({ t_rise: load.rise, f_PWM: pwm.frequency, d_on })
}
