/** Which chain it is: what it hangs on, by the sensor, the reading, and whether a divider stands before the converter. */
export interface Topology {
  readonly output: 'ratiometric' | 'fixed'
  /** Whether the sensor hangs on the rail or on a supply of its own. */
  readonly supply: 'rail' | 'own'
  /** Whether the converter counts against the rail or a reference of its own. */
  readonly reference: 'rail' | 'own'
  readonly reading: 'on-window' | 'averaged'
  readonly divided: boolean
}

/** A topology as flags: which formulas run is a branch, so that each call stays a direct one. */
export interface Flags {
  readonly ratiometric: boolean
  readonly ownSupply: boolean
  readonly ownReference: boolean
  readonly averaged: boolean
  readonly divided: boolean
}

/** The flags of a topology. */
export const flagsOf = ({ output, supply, reference, reading, divided }: Topology): Flags => ({
  ratiometric: output === 'ratiometric',
  ownSupply: supply === 'own',
  ownReference: reference === 'own',
  averaged: reading === 'averaged',
  divided,
})

/** Every topology that there is. */
export const topologies: readonly Topology[] = /*#__PURE__*/ (['ratiometric', 'fixed'] as const).flatMap((output) =>
  (['rail', 'own'] as const).flatMap((supply) =>
    (['rail', 'own'] as const).flatMap((reference) =>
      (['on-window', 'averaged'] as const).flatMap((reading) =>
        [false, true].map((divided) => ({ output, supply, reference, reading, divided })),
      ),
    ),
  ),
)
