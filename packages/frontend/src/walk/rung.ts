import { between, type Spread } from '@ohmward/quantity'

/** What a ring between source and capacitors takes from a rail and adds to it, of the rail at rest. */
export interface Ring {
  readonly below: number
  readonly above: number
}

/** The same as the resistance is read, and how far from it that is what its amplifier shows. */
export interface LaggingRing extends Ring {
  readonly behind: number
}

/** The same as the current is sampled; and with the load off at its highest, as the resistance and a zero of the current are read, and the cells at rest. */
export interface Rings extends Ring {
  readonly top: Ring
  readonly resistance: LaggingRing
  readonly zero: Ring
  readonly pause: Ring
}

const still = { below: 0, above: 0, behind: 0 }

/** No ring at all. */
export const noRing: Rings = { ...still, top: still, resistance: still, zero: still, pause: still }

/** The rail under load with it. */
export const rung = (sag: Spread, rest: Spread, { below, above }: Ring): Spread =>
  below === 0 && above === 0
    ? sag
    : between(Math.max(0, sag.lower - below * rest.lower), sag.upper + above * rest.upper, sag.nominal)
