import type { Ends } from '../supply/place.js'

/** A block's choice with what the design gives it, and the conditions of a place: what its own page or check takes. */
export interface BlockAt<C, D> {
  readonly choice: C
  readonly conditions: D
  /** Single values of some of its conditions. */
  readonly at: Readonly<Record<string, number>>
}

/** The air of a place as a block takes it. */
export const ambient = ({ celsius }: { readonly celsius: Ends }) => ({ ambientCelsius: celsius })
