import type { Verdict } from '@ohmward/budget'
import { between, type Spread } from '@ohmward/quantity'
import { type ReadCell, type ReadStandby, type Shelf, shelfLife } from '@ohmward/supply'
import { railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import type { MonitorAnswer } from './monitor.js'

/** What switching a part off in the drawer buys. */
export interface SwitchedOff {
  readonly name: string
  /** At most, A. */
  readonly current: number
  /** Days to the cut-off with it off, at least, and how many more than with it on. */
  readonly days: number
  readonly gained: number
}

/** A drain of the drawer, as it is printed. */
export interface DrawerDrain {
  readonly name: string
  /** At most, A. */
  readonly current: number
  /** Days to the cut-off at least if nothing else drew. */
  readonly daysAlone: number
  /** How many days more the cells last with it off; `null` for self-discharge, which nothing switches off. */
  readonly gained: number | null
}

/** Standby against what was wanted. */
export interface Standby extends Shelf {
  readonly wantedDays: number | undefined
  /** Days from the cut-off to damage that were wanted. */
  readonly wantedAfter: number | undefined
  readonly verdict: Verdict
  /** What to switch off, the largest gain first. Pitfall K07. */
  readonly switchOff: readonly SwitchedOff[]
  /** All that draws, self-discharge among it, the largest current first. */
  readonly largestFirst: readonly DrawerDrain[]
}

/** All that draws in the drawer: what is listed, every regulator that stays on, and the divider of the monitor. Pitfalls K07, K08. */
export const drawerOf = (design: ReadDesign): ReadStandby => [
  ...design.standby,
  ...dividerDrain(design),
  ...(design.rails ?? []).flatMap(({ name, through }) =>
    through.kind === 'regulator' && through.inDrawer === 'on'
      ? [{ name: `regulator of ${name}`, current: through.quiescentCurrent, resistance: undefined }]
      : [],
  ),
]

/** What a rail holds in the drawer at its lowest, where the main one has the full cells' voltage, V. */
function heldInDrawer(rails: ReadDesign['rails'], name: string, full: number): number {
  const rail = rails?.find((one) => one.name === name)
  if (rail === undefined) return full
  const { source, through } = rail
  const feeding = heldInDrawer(rails, source, full)
  if (through.kind !== 'regulator') return feeding
  return through.inDrawer === 'on' ? Math.min(feeding, through.voltage.lower) : 0
}

/**
 * What the divider of the monitor draws. With its lower end open its pin goes up to the cells, and the clamp into the converter's
 * rail conducts through the upper resistor; so it does with both on where that rail is off. Pitfall K08.
 */
function dividerDrain({ monitor, rails, lives, supply: { source } }: ReadDesign): ReadStandby {
  const { upper, lower, inDrawer } = monitor?.divider ?? {}
  if (upper === undefined || lower === undefined || inDrawer === 'off above' || source.kind !== 'cell') return []
  const name = 'divider of the monitor'
  const { upper: full, lower: least, nominal } = fullVoltage(source)
  const through = full / (upper.lower + lower.lower)
  const held = heldInDrawer(rails, railOf({ rails, lives }, 'converter'), full)
  const intoClamp = Math.max(0, full - held - lives.pinClamp) / upper.lower
  const most = inDrawer === 'off below' ? intoClamp : Math.max(through, intoClamp)
  if (most === 0) return []
  const current =
    inDrawer === 'off below'
      ? between(0, most, most)
      : between(least / (upper.upper + lower.upper), most, nominal / (upper.nominal + lower.nominal))
  return [{ name, current, resistance: undefined }]
}

/** Voltage of all full cells, V. */
function fullVoltage({ openCircuit: { y }, openCircuitSpread: off, inSeries }: ReadCell): Spread {
  const full = y[y.length - 1]!
  const [lower, nominal, upper] = [off.lower, off.nominal, off.upper].map((e) => inSeries * (full + e))
  return between(lower!, upper!, nominal!)
}

/**
 * Days in the drawer from full cells, at the oldest; `null` for a port. The cut-off is the firmware's stop where that acts before the
 * cells' own lowest voltage, and what is left from there is counted from the lowest that it leaves, after the last burst: where nothing watches the
 * cells, they may lie at the voltage of damage already. Pitfalls K07, K08, K09.
 */
export function standbyOf(design: ReadDesign, monitor: MonitorAnswer | null): Standby | null {
  const { source } = design.supply
  if (source.kind !== 'cell') return null
  const { requirements, age } = design
  const standby = drawerOf(design)
  const stop = monitor?.alarms.find(({ name }) => name === 'stop')?.rest
  const { inSeries, lowestVoltage, damageVoltage, openCircuit } = source
  const highest = Math.max(lowestVoltage, (stop?.upper ?? 0) / inSeries)
  const untilStop = { ...source, lowestVoltage: Math.min(highest, openCircuit.y[openCircuit.y.length - 1]! - 1e-6) }
  // After the last burst.
  const end = monitor?.aboveDamage == null ? 0 : monitor.aboveDamage / inSeries
  const left = { ...source, lowestVoltage: damageVoltage + Math.max(0, end) }
  const shelf = {
    ...shelfLife(untilStop, standby, { age: age.to }),
    daysToDamage: shelfLife(left, standby, { age: age.to }).daysToDamage,
  }
  const { standbyDays: wantedDays, daysAfterCutOff: wantedAfter } = requirements
  const { daysToCutOff, daysToDamage, drains } = shelf
  const holds =
    (wantedDays === undefined || daysToCutOff.lower >= wantedDays) &&
    (wantedAfter === undefined || daysToDamage.lower >= wantedAfter)
  const parts = new Set(standby.map(({ name }) => name))
  const switchOff = drains
    .filter(({ name }) => parts.has(name))
    .map(({ name, current, daysWithout }) => ({
      name,
      current: current.upper,
      days: daysWithout.lower,
      gained: daysWithout.lower - daysToCutOff.lower,
    }))
    .sort((a, b) => b.gained - a.gained)
  const largestFirst = drains
    .map(({ name, current, daysAlone, daysWithout }, i): DrawerDrain => {
      const one = { current: current.upper, daysAlone: daysAlone.lower }
      // It comes last, whatever a part is called.
      return i === drains.length - 1
        ? { ...one, name: 'self-discharge of the cells', gained: null }
        : { ...one, name, gained: daysWithout.lower - daysToCutOff.lower }
    })
    .sort((a, b) => b.current - a.current)
  return { ...shelf, wantedDays, wantedAfter, verdict: holds ? 'holds' : 'fails', switchOff, largestFirst }
}
