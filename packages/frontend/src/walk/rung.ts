import { between, type Spread } from '@ohmward/quantity'

/** What a ring between source and capacitors takes from the rail under load and adds to it as the current is sampled, of the rail at rest. */
export interface Ring {
  readonly below: number
  readonly above: number
}

/** The rail under load with it. */
export const rung = (sag: Spread, rest: Spread, { below, above }: Ring): Spread =>
  below === 0 && above === 0
    ? sag
    : between(Math.max(0, sag.lower - below * rest.lower), sag.upper + above * rest.upper, sag.nominal)
