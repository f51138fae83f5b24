import type { Diode, ReadRail, Resistor } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'

/** A rail that a capacitor of its own holds up. */
export type HeldRail = ReadRail & { readonly through: Diode | Resistor }

export const isHeld = (rail: ReadRail): rail is HeldRail =>
  rail.through.kind === 'diode' || rail.through.kind === 'resistor'

export const heldRails = ({ rails }: ReadDesign): HeldRail[] => (rails ?? []).filter(isHeld)

/** How a rail comes to where it goes after a step: time constants in a row, and all of them added up, s. */
export interface Return {
  readonly time: number
  readonly steps: number
  /** Of one time constant the least that it may be, s, and the share of the step that may go faster: at once, or from one capacitor to another. */
  readonly fast?: { readonly least: number; readonly share: number } | undefined
}

/**
 * The fast part of a step at the main rail, whose capacitors are charged or emptied through a resistance of at least so many ohm; nothing is known
 * of it beside rails that hold themselves up, whose capacitors take their part of it.
 */
export function fastAt(design: ReadDesign, least: number): Return['fast'] {
  if (heldRails(design).length > 0) return undefined
  const { leastCapacitance: C, seriesTime } = design.parts
  const slowest = C * least
  return { least: slowest, share: slowest === 0 ? 1 : Math.min(1, seriesTime / slowest) }
}
