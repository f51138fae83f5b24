import { between, exact, readSpread, type Spread } from '@ohmward/quantity'
import { type Diode, type ReadRail, type Resistor, railAt } from '@ohmward/supply'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { drawOf, measuringOver } from './rails.js'
import type { SolvedSpan } from './solve.js'

/** From the command that switches the load off until the resistance is read, at least, s. */
export const readAfter = ({ divider: { timing } }: Pick<ReadDesign, 'divider'>): number =>
  timing?.wait === undefined ? 1e-3 : readSpread(timing.wait, { field: 'divider.timing.wait', unit: 's' }).lower

/** A rail that a capacitor of its own holds up. */
type HeldRail = ReadRail & { readonly through: Diode | Resistor }

const isHeld = (rail: ReadRail): rail is HeldRail => rail.through.kind === 'diode' || rail.through.kind === 'resistor'

const heldRails = ({ rails }: ReadDesign): HeldRail[] => (rails ?? []).filter(isHeld)

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

/** How the capacitors of the rails are charged again: all of the time constants at a resistance of the source added up, s. */
export type Recovery = (R_s: number) => number

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
  const C_all = capacitance + C_held
  return (R_s) => (C_all === 0 ? 0 : C_all * R_s + seriesTime + behind)
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

/** Share of its sag that the main rail still has when the resistance is read, at most: {@link recoveryTime} and the switch's edge being so, s. */
export const leftOfSag = (design: ReadDesign, time: number, edge: number): number =>
  design.pwm.duty.from < 1 ? leftAfter(Math.max(0, readAfter(design) - edge), { time, steps: 1 }) : 0

/**
 * Every rail while the resistance is read between two pulses, V: its capacitors may still be charged again after the one before.
 *
 * @param edge - how long the switch takes to be off, of the wait, s
 */
export function railsAsRead(design: ReadDesign, solved: SolvedSpan, edge: number): Readonly<Record<string, Spread>> {
  const { rails, span, test } = solved
  const since = Math.max(0, readAfter(design) - edge)
  const returns = new Map([[mainRail, { time: design.pwm.duty.from < 1 ? recoveryTime(design, solved) : 0, steps: 1 }]])
  /** A rail that has a share of its sag still to come back from. */
  const late = (name: string, voltage: Spread): Spread => {
    const left = leftAfter(since, returns.get(name)!)
    // A ten-thousandth of a sag is less than any part is known to.
    if (left < 1e-4) return voltage
    const { rest, sag, measuring } = rails[name]!
    const fall = Math.max(0, rest.lower - sag.lower)
    // It is never lower than it was under load.
    const lower = Math.max(0, measuring.lower - fall, voltage.lower - left * fall)
    return lower >= voltage.upper ? voltage : between(lower, voltage.upper, Math.max(lower, voltage.nominal))
  }
  const behind = (rail: ReadRail, voltage: Spread): Spread => {
    const { name } = rail
    const before = returns.get(rail.source)!
    const isFree = before.time === 0 || !isHeld(rail)
    const least = drawOf(design, name).lower
    // A diode that carries less than what counts for the rail before it still counts for its own.
    const more =
      isFree || least >= leastCharging ? 0 : chargingResistance(rail, solved, least) * rail.through.capacitance.upper
    returns.set(name, isFree ? before : { time: before.time + more, steps: before.steps + 1 })
    // What keeps nothing follows its source, which has its sag already.
    return isFree ? voltage : late(name, voltage)
  }
  const found = measuringOver(design, rails, late(mainRail, rails[mainRail]!.measuring), test, span.celsius, behind)
  return Object.fromEntries(Object.entries(found).map(([name, { measuring }]) => [name, measuring]))
}

/** Share of a step that is left, at most: of some time constants in a row, each as slow as the slowest. */
function leftAfter(since: number, { time, steps }: { readonly time: number; readonly steps: number }): number {
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
