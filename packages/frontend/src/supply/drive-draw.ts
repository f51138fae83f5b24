import { between, type Spread } from '@ohmward/quantity'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'

/** Current of the gate drive on a rail, A. */
export interface DriveDraw {
  readonly rail: string
  readonly current: Spread
}

/** Rail that feeds the drive: of a pin, and of what follows one, it is that of the controller. */
function railOfDrive(design: ReadDesign): string {
  const { kind } = design.parts.switch.drive
  return railOf(design, kind === 'pin' || kind === 'follower' ? 'controller' : 'drive')
}

/**
 * What the gate drive takes from its rail. Where the design doesn't say it: up to the charge of the gates in every period and the current
 * of the resistor that pulls against the drive, and of a transistor in front of the gate its base current, from the controller's rail. All
 * of it comes and goes with the load. On the main rail it counts nothing: there it is nothing beside the load.
 */
export function driveDraws(design: ReadDesign): readonly DriveDraw[] {
  const rail = railOfDrive(design)
  const told = design.lives.driveCurrent
  if (told !== undefined) return [{ rail, current: told }]
  const draws = [
    { rail, most: gateCharging(design) + pullCurrent(design, rail) },
    { rail: railOf(design, 'controller'), most: baseCurrent(design) },
  ]
  return draws.flatMap(({ rail, most }) =>
    rail === mainRail || most === 0 ? [] : [{ rail, current: between(0, most, 0) }],
  )
}

/** Charge of all gates in every period, A; none where the load stays on. */
function gateCharging({ pwm: { duty, frequency }, parts: { switch: own } }: ReadDesign): number {
  return duty.from === 1 ? 0 : own.parallel * own.transistor.fields.gateCharge.upper * frequency
}

/** What flows from the drive's rail through its pull resistor, A: to ground from an N-channel gate that is on, through a transistor that holds it off. */
function pullCurrent(design: ReadDesign, rail: string): number {
  const { transistor, drive } = design.parts.switch
  if (transistor.channel === 'P' || drive.pull === 'none') return 0
  return highestOf(design, rail) / drive.spreads.R_p.lower
}

/** Base current of a transistor that is driven by a pin, A. */
function baseCurrent(design: ReadDesign): number {
  const { kind, spreads } = design.parts.switch.drive
  if (kind !== 'inverting transistor') return 0
  const level = highestOf(design, railOf(design, 'controller'))
  return Math.max(0, level - spreads.V_BE.lower) / spreads.R_b.lower
}

/** The highest that a rail has, whatever is drawn, V. */
function highestOf(design: ReadDesign, name: string): number {
  const { supply, rails } = design
  const rail = rails?.find((one) => one.name === name)
  if (rail !== undefined) {
    const feeding = highestOf(design, rail.source)
    return rail.through.kind === 'regulator' ? Math.min(feeding, rail.through.voltage.upper) : feeding
  }
  const { source } = supply
  if (source.kind === 'port') return source.voltage.upper
  const { openCircuit, openCircuitSpread, inSeries } = source
  return inSeries * (openCircuit.y[openCircuit.y.length - 1]! + openCircuitSpread.upper)
}
