import type { Drive, ReadMosfet } from '@ohmward/mosfet'
import { between, exact, type Input, readSpread, type Spread } from '@ohmward/quantity'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { hull } from './hull.js'
import { sumOf } from './path.js'
import type { Ends } from './place.js'
import { gapBelow, type LoadedRails } from './rails.js'

/** A rail that has collapsed is none: what hangs on it has this much, V. */
const none = 1e-3

/** Whether the controller, and so the high level of its pins, stands on another rail than the switch. */
const isApart = (design: ReadDesign): boolean => railOf(design, 'controller') !== mainRail

/** What the controller's rail comes to, load off and on. */
function levelOf(design: ReadDesign, rails: LoadedRails): Spread {
  const { rest, sag } = rails[railOf(design, 'controller')]!
  return atLeast(hull([rest, sag]), none)
}

/** The supply of an N-channel gate that a pin or a follower of another rail drives; undefined where it is none of that. */
export function pinLevel(design: ReadDesign, rails: LoadedRails): Spread | undefined {
  const { drive, transistor } = design.mosfet
  const isPin = drive.kind === 'pin' || drive.kind === 'follower'
  return isApart(design) && isPin && transistor.channel === 'N' ? levelOf(design, rails) : undefined
}

/** The switch as it was read, with what its gate has of the controller's rail. */
export function switchOn(design: ReadDesign, rails: LoadedRails): ReadMosfet {
  const own = design.parts.switch
  const V_reg = pinLevel(design, rails)
  const { drive } = own
  return V_reg ? { ...own, drive: { ...drive, supply: 'regulated', spreads: { ...drive.spreads, V_reg } } } : own
}

/**
 * The gate drive with the level that the controller's pins have: a pin or a follower gives an N-channel gate no more than that,
 * and leaves a P-channel one as far below the main rail as the controller's rail stands there. A weak pull goes there too.
 */
export function driveAt(design: ReadDesign, rails: LoadedRails, celsius: Ends): Drive {
  const { drive } = design.mosfet
  const level = levelOf(design, rails)
  const high = 'highLevel' in drive && drive.highLevel !== undefined ? highLevelOf(drive.highLevel) : undefined
  const lowered = high !== undefined && level.lower < high.lower ? { highLevel: exact(level.lower) } : {}
  if (drive.kind === 'inverting transistor') {
    const isPulled = isApart(design) && drive.resetPull !== undefined
    return { ...drive, ...lowered, ...(isPulled && { resetLevel: level }) }
  }
  if (!isApart(design) || drive.kind === 'driver') return drive
  const regulated = pinLevel(design, rails)
  if (regulated) return { ...drive, supply: { regulated } }
  if (drive.kind === 'follower') return drive
  if (high !== undefined) return { ...drive, ...lowered }
  const stated = readSpread(drive.offLevel ?? 0, { field: 'mosfet.drive.offLevel', unit: 'V' })
  return { ...drive, offLevel: sumOf([stated, gapBelow(design, railOf(design, 'controller'), rails, celsius)]) }
}

const highLevelOf = (given: Input): Spread => readSpread(given, { field: 'mosfet.drive.highLevel', unit: 'V' })

const atLeast = ({ lower, nominal, upper }: Spread, least: number): Spread =>
  upper <= least ? exact(least) : between(Math.max(lower, least), Math.max(upper, least), Math.max(nominal, least))
