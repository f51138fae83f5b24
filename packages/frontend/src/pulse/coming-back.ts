import { between, exact, type Spread } from '@ohmward/quantity'
import { type ReadRail, railAt } from '@ohmward/supply'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { drawOf, measuringOver } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import { fallingAs } from './falling.js'
import { fastAt, type HeldRail, heldRails, isHeld, type Return } from './held-rails.js'
import { dropToCome } from './pulse.js'
import type { Ring } from './rung.js'

/** Whether a rail has a capacitor of its own, behind a diode or a resistor. */
export const hasHeldRails = (design: ReadDesign): boolean => heldRails(design).length > 0

/** A current through a diode that charges a capacitor, A: what flows below it lowers the rail before by no more than a millivolt. */
const leastCharging = 1e-3

/** Resistance through which the capacitor of a rail is charged at most, ohm: that of a diode while it carries a current. */
function chargingResistance(
  rail: HeldRail,
  { rails, span }: Pick<SolvedSpan, 'rails' | 'span'>,
  least: number,
): number {
  if (rail.through.kind === 'resistor') return rail.through.resistance.upper
  const { from, to } = span.celsius
  return Math.max(...[from, to].map((celsius) => slopeAt(rail, rails[rail.source]!.rest, least, celsius)))
}

/** How the capacitors of the rails are charged again: all of the time constants at a resistance of the source added up, s, with the most at the main one or less. */
export type Recovery = (R_s: number, atMain?: number) => number

/**
 * The same of a design. Capacitors one behind the other load each other: none of the time constants of all of them is more than the
 * resistances in front of each with its capacitance, added up.
 */
export function recoveryOf(design: ReadDesign, solved: Pick<SolvedSpan, 'rails' | 'span'>): Recovery {
  const { capacitance, seriesTime } = design.parts
  const held = heldRails(design)
  const C_held = held.reduce((sum, { through }) => sum + through.capacitance.upper, 0)
  const behind = held.reduce((sum, rail) => {
    const least = Math.max(leastCharging, drawOf(design, rail.name).lower)
    return sum + chargingResistance(rail, solved, least) * C_held
  }, 0)
  return (R_s, atMain = capacitance) => {
    const C_all = atMain + C_held
    return C_all === 0 ? 0 : C_all * R_s + seriesTime + behind
  }
}

/**
 * The longest that it takes with a source, s. One that holds its current is no slower than a resistance that lets no more through at the
 * whole voltage.
 */
export function recoveryTime(design: ReadDesign, solved: SolvedSpan): number {
  const { source, rest } = solved
  const { resistance, currentLimit } = source
  const most = currentLimit && Math.max(0, currentLimit.lower - drawOf(design, mainRail).upper)
  return recoveryOf(design, solved)(Math.max(resistance.upper, most === undefined ? 0 : rest.upper / most))
}

/** A reading with the load off: how long that has been gone at least, s, what the main rail may ring then and at its highest, and the test current. */
export interface OffReading {
  readonly since: number
  readonly ring: Ring
  readonly top: Ring
  readonly state: 'rest' | 'measuring'
}

/**
 * Every rail in the pause between two pulses, V: its capacitors may still be charged again after the one before, and the main one ring with the
 * inductance of the source.
 */
export function railsInPause(
  design: ReadDesign,
  solved: SolvedSpan,
  { since, ring, top, state }: OffReading,
): { readonly rails: Readonly<Record<string, Spread>>; readonly returns: ReadonlyMap<string, Return> } {
  const { rails, span, test } = solved
  const returns = new Map<string, Return>([
    [
      mainRail,
      {
        time: design.pwm.duty.from < 1 ? recoveryTime(design, solved) : 0,
        steps: 1,
        fast: fastAt(design, solved.source.resistance.lower),
      },
    ],
  ])
  const { rest } = rails[mainRail]!
  const [below, above, more] = [ring.below * rest.lower, ring.above * rest.upper, (top.above - ring.above) * rest.upper]
  /** A rail that has a share of its sag still to come back from. */
  const late = (name: string, voltage: Spread): Spread => {
    const left = leftAfter(since, returns.get(name)!)
    // A ten-thousandth of a sag is less than any part is known to.
    if (left < 1e-4) return voltage
    const { rest, sag, [state]: still } = rails[name]!
    const fall = Math.max(0, rest.lower - sag.lower)
    // It is never lower than it was under load.
    return widened(voltage, Math.max(0, still.lower - fall, voltage.lower - left * fall), voltage.upper)
  }
  const behind = (rail: ReadRail, voltage: Spread): Spread => {
    const { name } = rail
    const before = returns.get(rail.source)!
    const isFree = before.time === 0 || !isHeld(rail)
    const least = drawOf(design, name).lower
    // A diode that carries less than what counts for the rail before it still counts for its own.
    const slower =
      isFree || least >= leastCharging ? 0 : chargingResistance(rail, solved, least) * rail.through.capacitance.upper
    returns.set(name, isFree ? before : { time: before.time + slower, steps: before.steps + 1 })
    // What keeps nothing follows its source, which has its sag already; what does may keep the top of a ring.
    return isFree ? voltage : late(name, widened(voltage, voltage.lower, voltage.upper + more))
  }
  const back = late(mainRail, rails[mainRail]![state])
  const main = widened(
    back,
    Math.min(back.lower, Math.max(0, rails[mainRail]![state].lower - below)),
    back.upper + above,
  )
  const current = state === 'measuring' ? test : exact(0)
  const found = measuringOver(design, rails, main, current, span.celsius, behind)
  return { rails: Object.fromEntries(Object.entries(found).map(([name, { measuring }]) => [name, measuring])), returns }
}

/** A spread down to a voltage and up to another. */
const widened = (voltage: Spread, lower: number, upper: number): Spread =>
  lower >= voltage.lower && upper <= voltage.upper
    ? voltage
    : between(Math.min(lower, upper), upper, Math.max(lower, voltage.nominal))

/**
 * Share of its drop that a rail still has to come when the current of a pulse is sampled, at most: behind a resistor its own capacitor
 * follows the main rail late, and behind a diode it holds until it is fed again.
 *
 * @param after - when that is at the earliest, s after the load has risen
 */
export function holdsUp(design: ReadDesign, solved: SolvedSpan, name: string, after: number): number {
  const rail = (design.rails ?? []).find((one) => one.name === name)
  if (rail === undefined) return dropToCome(design, solved, after)
  if (rail.through.kind === 'diode') return 1
  const before = holdsUp(design, solved, rail.source, after)
  if (rail.through.kind !== 'resistor') return before
  return Math.max(before, leftAfter(after, fallingAs(design, solved, name)))
}

/** Share of a step that is left, at most: of some time constants in a row, each as slow as the slowest. */
export function leftAfter(since: number, { time, steps }: Return): number {
  if (time === 0) return 0
  const x = since / time
  let [term, sum] = [1, 0]
  for (let k = 1; k <= steps; k++) {
    sum += term
    term *= x / k
  }
  return sum * Math.exp(-x)
}

/**
 * Slope of a diode at the least current that it carries, ohm: it charges its capacitor no slower than that. By its exponential law it is
 * what the drop grows by for e times the current, over the current.
 */
function slopeAt(rail: ReadRail, source: Spread, least: number, celsius: number): number {
  if (least === 0) return Number.POSITIVE_INFINITY
  const [one, more] = [least, Math.E * least].map((current) =>
    railAt(rail, source, { current: exact(current), celsius }),
  )
  if (one?.kind !== 'possible' || more?.kind !== 'possible') return Number.POSITIVE_INFINITY
  return (one.voltage.lower - more.voltage.lower) / least
}

/**
 * How far poles in series show a rail from where it is as it comes back, at most, of what it fell by: `lag` s, all of their time constants added
 * up, times the most that it rises by then and in what they still show.
 *
 * @param isStraight - whether something charges it that isn't a resistance: then it is held to what is left at half of the time, since it never rises
 *   faster later
 */
export function behindAfter(since: number, back: Return, lag: number, isStraight: boolean): number {
  if (lag === 0 || back.time === 0) return 0
  return Math.min(
    1,
    ...(back.steps === 1 && !isStraight ? [behindOne(since, back, lag)] : []),
    ...[4, 8, 14, 20].map((times) => {
      const t = since - times * lag
      return t <= 0 ? 1 : lag * steepest(t, back, isStraight) + times * Math.exp(1 - times)
    }),
  )
}

/**
 * The same of one time constant. What poles show is a mean of what was before, none of it further than an exponential would have been: of one of
 * tau_r they show no more than e^(-t/tau_r) x / (1 - x), x the share that all of their time constants have of it, and of one that is less than
 * twice as slow as they are no more than of that. What stepped at once, through a resistance in series, fades with them.
 */
function behindOne(since: number, { time, fast }: Return, lag: number): number {
  const times = since / lag
  const shown = (x: number) => (Math.exp(-times * x) * x) / (1 - x)
  const largest = times > 4 ? (1 - Math.sqrt(1 - 4 / times)) / 2 : 0.5
  const most = (from: number, to: number) => shown(Math.min(to, Math.max(from, largest)))
  const faded = times > 1 ? times * Math.exp(1 - times) : 1
  const any = Math.max(2 * Math.exp(-times / 2), most(0, 0.5)) + faded
  if (fast === undefined || lag >= fast.least / 2) return any
  return most(lag / time, lag / fast.least) + fast.share * any
}

/** What lags errs by, of its output: less is nothing beside any part, and what has more is far from settled and fails whatever is allowed. */
export const [leastLag, mostLag] = [1e-6, 0.5] as const

/** Times at which the steepest rise is looked for between the least and the most. */
const looks = 40

/**
 * The steepest that what is left of a step may fall at a time, 1/s: of some time constants in a row the slowest is at least their mean, and nothing
 * falls faster than what is left over that. They may be less than at most.
 */
function steepest(t: number, { time, steps }: Return, isStraight: boolean): number {
  const least = t / time
  if (steps === 1 && !isStraight) return (Math.max(1, least) * Math.exp(-Math.max(1, least))) / t
  let most = 0
  // Beyond one more than the steps it only becomes less.
  const last = Math.max(least, steps + 1)
  for (let k = 0; k <= looks; k++) {
    const x = least + ((last - least) * k) / looks
    most = Math.max(most, (x * steps * leftAfter(x, { time: 1, steps })) / t)
  }
  return isStraight ? Math.max(most, (2 * leftAfter(t / 2, { time, steps })) / t) : most
}
