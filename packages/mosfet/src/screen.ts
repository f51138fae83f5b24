import type { Margin } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import { switchOf } from './chain/index.js'
import type { ReadMosfet } from './choice.js'
import { inputsOf, topologyOf } from './inputs.js'
import { hasTwoRegimes, heldMargin, marginSpecs } from './margins/index.js'

/** A choice that was read, with other resistors in its drive; `R_p` only where it has one. */
export function withResistors(read: ReadMosfet, R_g: Spread, R_p?: Spread): ReadMosfet {
  const spreads = { ...read.drive.spreads, R_g, ...(R_p && { R_p }) }
  return { ...read, drive: { ...read.drive, spreads } }
}

/**
 * Holds a few margins of a choice, by their ids, and returns the first that fails; `undefined` where all hold. The
 * junction is taken as warm as the air, which no check can be milder than.
 */
export function screen(read: ReadMosfet, ids: readonly string[]): Margin | undefined {
  const inputs = inputsOf(read)
  const circuit = switchOf(topologyOf(read))
  const specs = marginSpecs({ read, circuit }, read.ambient.to)
  const twoRegimes = hasTwoRegimes(circuit, inputs)
  for (const id of ids) {
    const spec = specs.find((one) => one.id === id)
    const margin = spec && heldMargin(spec, circuit, inputs, twoRegimes, {})
    if (margin && margin.verdict !== 'holds') return margin
  }
  return undefined
}
