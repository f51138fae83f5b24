/** A source with inductance, a capacitor with its series resistance at the rail, and a load that is pulsed. SI units. */
export interface PulsedRail {
  readonly resistance: number
  readonly inductance: number
  readonly capacitance: number
  readonly series: number
  readonly load: number
  readonly frequency: number
  readonly duty: number
}
