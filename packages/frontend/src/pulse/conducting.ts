import type { ReadDesign } from '../design/record.js'
import type { Ends } from '../supply/place.js'

/** How long the switch takes from its command until it is on and until it is off, at most, s. */
export interface Edges {
  readonly on: number
  readonly off: number
  /** Whether the gate may stay below the plateau: then it is not on at any time, and what goes by `on` isn't sure. */
  readonly isStuck?: boolean
}

/** Why what goes by when the switch is on isn't sure. */
export const stuckText = 'the gate may not get over the plateau, and then the load is never wholly on'

/** Whether the load is pulsed, at some duty at least; else it is on all the time while it is in use. */
export const isPulsed = ({ pwm }: Pick<ReadDesign, 'pwm'>): boolean => pwm.duty.from < 1

/** Least share of a duty that is taken to be left where the switch takes longer to be on than a pulse lasts: that has a row of its own. */
export const leastLeft = 1e-3

/**
 * Duties in which the load may conduct where one is told: the switch is on late by up to the whole delay and edge of that, and off late by
 * up to those. Where the switch refuses its supply nothing is known of them.
 */
export function conductingIn(
  { pwm: { frequency } }: Pick<ReadDesign, 'pwm'>,
  edges: Edges | undefined,
  duty: number,
): Ends {
  if (duty === 1 || edges === undefined) return { from: duty, to: duty }
  return {
    from: Math.max(leastLeft * duty, duty - edges.on * frequency),
    to: Math.min(1, duty + edges.off * frequency),
  }
}

/** The same from the smallest of the duties to the largest. */
export const conductingOver = (design: Pick<ReadDesign, 'pwm'>, edges: Edges | undefined): Ends => ({
  from: conductingIn(design, edges, design.pwm.duty.from).from,
  to: conductingIn(design, edges, design.pwm.duty.to).to,
})
