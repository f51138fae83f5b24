/** One kind of capacitor as a branch from the rail to ground, all of its parts in parallel taken together. SI units. */
export interface Branch {
  readonly capacitance: number
  /** Equivalent series resistance. */
  readonly resistance: number
  /** Equivalent series inductance. */
  readonly inductance: number
}

/** A source with an open-circuit voltage, a resistance and a loop inductance; or one that is held at its current limit. */
export type Feed =
  | { readonly voltage: number; readonly resistance: number; readonly inductance: number }
  | { readonly current: number }

/** The rail: one node with its feed, its capacitors and, while a resistor is switched on, its conductance to ground. */
export interface Network {
  readonly feed: Feed
  readonly branches: readonly Branch[]
  readonly conductance: number
}
