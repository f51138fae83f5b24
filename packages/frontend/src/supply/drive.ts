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

/** What a part's rail comes to, load off and on. */
function levelOf(design: ReadDesign, part: 'controller' | 'drive', rails: LoadedRails): Spread {
  const { rest, sag } = rails[railOf(design, part)]!
  return atLeast(hull([rest, sag]), none)
}

/**
 * The supply of an N-channel gate that another rail than the main one drives: that of the controller by its pin or a follower, or that
 * on which the drive lives; undefined where it is none of that.
 */
export function gateLevel(design: ReadDesign, rails: LoadedRails): Spread | undefined {
  const { drive, transistor } = design.mosfet
  if (transistor.channel === 'P') return undefined
  if (railOf(design, 'drive') !== mainRail) return levelOf(design, 'drive', rails)
  const isPin = drive.kind === 'pin' || drive.kind === 'follower'
  return isApart(design) && isPin ? levelOf(design, 'controller', rails) : undefined
}

/** The switch as it was read, with what its gate has of a rail of the design. */
export function switchOn(design: ReadDesign, rails: LoadedRails): ReadMosfet {
  const own = design.parts.switch
  const V_reg = gateLevel(design, rails)
  const { drive } = own
  return V_reg ? { ...own, drive: { ...drive, supply: 'regulated', spreads: { ...drive.spreads, V_reg } } } : own
}

/**
 * The gate drive with the level that the controller's pins have: a pin or a follower gives an N-channel gate no more than that,
 * and leaves a P-channel one as far below the main rail as the controller's rail stands there. A weak pull goes there too. Any
 * other drive of an N-channel gate has the rail on which it lives.
 */
export function driveAt(design: ReadDesign, rails: LoadedRails, celsius: Ends): Drive {
  const { drive } = design.mosfet
  const level = levelOf(design, 'controller', rails)
  const high = 'highLevel' in drive && drive.highLevel !== undefined ? highLevelOf(drive.highLevel) : undefined
  const lowered = high !== undefined && level.lower < high.lower ? { highLevel: exact(level.lower) } : {}
  const regulated = gateLevel(design, rails)
  const supplied = regulated ? { supply: { regulated } } : {}
  if (drive.kind === 'inverting transistor') {
    const isPulled = isApart(design) && drive.resetPull !== undefined
    return { ...drive, ...lowered, ...supplied, ...(isPulled && { resetLevel: level }) }
  }
  if (regulated) return { ...drive, ...supplied }
  if (!isApart(design) || drive.kind !== 'pin') return drive
  if (high !== undefined) return { ...drive, ...lowered }
  const stated = readSpread(drive.offLevel ?? 0, { field: 'mosfet.drive.offLevel', unit: 'V' })
  return { ...drive, offLevel: sumOf([stated, gapBelow(design, railOf(design, 'controller'), rails, celsius)]) }
}

const highLevelOf = (given: Input): Spread => readSpread(given, { field: 'mosfet.drive.highLevel', unit: 'V' })

const atLeast = ({ lower, nominal, upper }: Spread, least: number): Spread =>
  upper <= least ? exact(least) : between(Math.max(lower, least), Math.max(upper, least), Math.max(nominal, least))
