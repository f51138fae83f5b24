import { between, type Spread } from '@ohmward/quantity'

/**
 * What a ring between source and capacitors takes from a rail and adds to it, and how far from it that is what an amplifier shows, of the rail at
 * rest.
 */
export interface Ring {
  readonly below: number
  readonly above: number
  readonly behind: number
}

/** The same as the current is sampled; and with the load off at its highest, as the resistance and a zero of the current are read, and the cells at rest. */
export type Rings = Readonly<Record<'current' | 'top' | 'resistance' | 'zero' | 'pause', Ring>>

const still: Ring = { below: 0, above: 0, behind: 0 }

/** No ring at all. */
export const noRing: Rings = { current: still, top: still, resistance: still, zero: still, pause: still }

/** The rail under load with it. */
export const rung = (sag: Spread, rest: Spread, { below, above }: Ring): Spread =>
  below === 0 && above === 0
    ? sag
    : between(Math.max(0, sag.lower - below * rest.lower), sag.upper + above * rest.upper, sag.nominal)
