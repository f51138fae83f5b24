import { between, exact, readSpread, type Spread } from '@ohmward/quantity'
import { type ReadRail, railAt } from '@ohmward/supply'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { drawOf, measuringOver } from './rails.js'
import type { SolvedSpan } from './solve.js'

/** From the command that switches the load off until the resistance is read, at least, s. */
export const readAfter = ({ divider: { timing } }: Pick<ReadDesign, 'divider'>): number =>
  timing?.wait === undefined ? 1e-3 : readSpread(timing.wait, { field: 'divider.timing.wait', unit: 's' }).lower

/**
 * Time constant with which the source charges the capacitors of the rail again, at most, s. One that holds its current is no slower
 * than a resistance that lets no more through at the whole voltage.
 */
export function recoveryTime(design: ReadDesign, { source, rest }: SolvedSpan): number {
  const { capacitance, seriesTime } = design.parts
  const { resistance, currentLimit } = source
  const most = currentLimit && Math.max(0, currentLimit.lower - drawOf(design, mainRail).upper)
  const R_s = most === undefined ? resistance.upper : Math.max(resistance.upper, rest.upper / most)
  return capacitance === 0 ? 0 : capacitance * R_s + seriesTime
}

/**
 * Every rail while the resistance is read between two pulses, V: its capacitors may still be charged again after the one before.
 *
 * @param edge - how long the switch takes to be off, of the wait, s
 */
export function railsAsRead(design: ReadDesign, solved: SolvedSpan, edge: number): Readonly<Record<string, Spread>> {
  const { rails, span, test } = solved
  const { from, to } = span.celsius
  const since = Math.max(0, readAfter(design) - edge)
  const isPulsed = design.pwm.duty.from < 1
  const returns = new Map([[mainRail, { time: isPulsed ? recoveryTime(design, solved) : 0, steps: 1 }]])
  /** A rail that has a share of its sag still to come back from. */
  const late = (name: string, voltage: Spread): Spread => {
    const left = leftAfter(since, returns.get(name)!)
    // A ten-thousandth of a sag is less than any part is known to.
    if (left < 1e-4) return voltage
    const { rest, sag } = rails[name]!
    const lower = Math.max(0, voltage.lower - left * Math.max(0, rest.lower - sag.lower))
    return lower === voltage.upper ? voltage : between(lower, voltage.upper, voltage.nominal)
  }
  const behind = (rail: ReadRail, voltage: Spread, source: Spread): Spread => {
    const { name, through } = rail
    const before = returns.get(rail.source)!
    if (!isPulsed || (through.kind !== 'diode' && through.kind !== 'resistor')) {
      // What keeps nothing follows its source, which has its sag already.
      returns.set(name, before)
      return voltage
    }
    const least = drawOf(design, name).lower
    const slopes = [from, to].map((celsius) => slopeAt(rail, source, least, celsius))
    const R = through.kind === 'resistor' ? through.resistance.upper : Math.max(...slopes)
    const own = R * through.capacitance.upper
    returns.set(name, { time: Math.max(before.time, own), steps: before.time === 0 ? 1 : before.steps + 1 })
    return late(name, voltage)
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
