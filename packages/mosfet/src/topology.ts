import type { Law } from './law.js'
import type { OnResistancePoint } from './table.js'

/** What the parts decide before any number: which formulas hold. */
export interface Topology {
  /** `P`: high side, source at the rail. `N`: low side, source at ground. */
  readonly channel: 'N' | 'P'
  /** A resistance, or a load that holds its current. */
  readonly load: 'resistance' | 'current'
  /** How the load behaves in an edge. */
  readonly edges: 'resistive' | 'clamped inductive'
  /** The gate drive hangs from the sagged rail, or has a regulated supply of its own. */
  readonly supply: 'rail' | 'regulated'
  /** Through what the gate charges: the drive's own resistance, or the pull-up of an inverting drive. */
  readonly charge: 'drive' | 'pull'
  /** Where the resistor sits that holds the gate off: at the gate, on the drive's side of the gate resistor, nowhere. */
  readonly pull: 'gate' | 'drive' | 'none'
  /** What discharges the gate: the drive, or that resistor alone. */
  readonly off: 'drive' | 'pull'
  /** In which edge a bipolar transistor limits the gate current; `base` tells whether its base has a resistor to the emitter. */
  readonly limited: 'on' | 'off' | 'neither'
  readonly base: 'shared' | 'alone'
  /** What the drive leaves on the gate when off: a fixed level, or the rail less its high level. */
  readonly offLevel: 'fixed' | 'rail less high'
  readonly law: Law
  readonly onResistance: readonly OnResistancePoint[]
}

/**
 * Inputs of the chain by symbol, SI units, °C, magnitudes. One shape for every topology; what a topology doesn't read is 0.
 */
export type SwitchInputs = {
  /** Open-circuit voltage of the source. */
  readonly V_oc: number
  /** Resistance of source and wiring. */
  readonly R_s: number
  readonly R_L: number
  /** Current of a load that holds it. */
  readonly I_set: number
  /** Copper that load current and gate drive share at the source. */
  readonly R_sh: number
  /** Devices in parallel. */
  readonly n: number
  readonly D: number
  readonly f: number
  readonly T_a: number
  readonly R_thJA: number
  /** Rated junction limit. */
  readonly T_lim: number
  readonly T_ref: number
  /** Drop of a diode that holds the drive's supply. */
  readonly V_hold: number
  readonly V_reg: number
  readonly V_drop: number
  readonly R_drv: number
  readonly R_snk: number
  readonly R_g: number
  readonly R_p: number
  readonly R_gi: number
  readonly V_off: number
  readonly V_high: number
  /** Floor of the gate's overdrive in the model. */
  readonly V_min: number
  /** Floor of a transistor's current for the gate in the model. */
  readonly I_min: number
  readonly h_FE: number
  readonly V_BE: number
  readonly R_b: number
  readonly R_be: number
  /** Where the lot stands between typical (0) and the guaranteed maximum (1). */
  readonly q_R: number
  readonly Q_gs: number
  readonly Q_gd: number
  readonly Q_g: number
  readonly V_pl: number
  readonly V_th: number
  readonly C_oss: number
  readonly L_w: number
}
