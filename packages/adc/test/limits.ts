import type { MarginSpec } from '@ohmward/budget'
import {
  acquisitionNeeded,
  bledLevel,
  cutOffLanding,
  railResolution,
  referenceShift,
  referenceWait,
  reservoirNeeded,
  tapDrop,
} from '../src/formulas/index.js'

/*
 * Limits of the pitfalls as rows over the symbols of this package, so that the formulas are tried on both sides of each.
 * Limits to both sides are two rows: an absolute value has a kink, at which no worst case is sure.
 */

/** D01: sampling time against what source, switch and capacitor need. */
export const acquisitionMargin: MarginSpec<'t_acq' | 'R_s' | 'R_sw' | 'C_sh' | 'N_bits'> = {
  id: 'acquisition',
  name: 'sampling time',
  unit: 's',
  sense: 'at least',
  value: (x) => x.t_acq,
  limit: acquisitionNeeded,
  catches: ['D01'],
}

/** D01: capacitor at the pin against what one sample takes out of it. */
export const reservoirMargin: MarginSpec<'C_res' | 'C_sh' | 'N_bits'> = {
  id: 'reservoir',
  name: 'capacitor at the pin',
  unit: 'F',
  sense: 'at least',
  value: (x) => x.C_res,
  limit: reservoirNeeded,
  catches: ['D01'],
}

/** D02: wait after switching the reference against its start-up and its pin's capacitor. */
export const referenceWaitMargin: MarginSpec<'t_wait' | 't_start' | 'n_tau' | 'R_refint' | 'C_refpin'> = {
  id: 'reference-wait',
  name: 'wait for the reference',
  unit: 's',
  sense: 'at least',
  value: (x) => x.t_wait,
  limit: referenceWait,
  catches: ['D02'],
}

/** D03: the lowest rail at which the cut-off acts against the lowest allowed: below it the cell is over-discharged. */
export const cutOffLowMargin: MarginSpec<'V_cut' | 'V_bg' | 'V_bgnom' | 'V_band'> = {
  id: 'cut-off-low',
  name: 'lowest rail at which the cut-off acts',
  unit: 'V',
  sense: 'at least',
  value: cutOffLanding,
  limit: (x) => x.V_cut - x.V_band,
  catches: ['D03'],
}

/** D03: the highest rail at which the cut-off acts against the highest allowed: above it charge is left unused. */
export const cutOffHighMargin: MarginSpec<'V_cut' | 'V_bg' | 'V_bgnom' | 'V_band'> = {
  id: 'cut-off-high',
  name: 'highest rail at which the cut-off acts',
  unit: 'V',
  sense: 'at most',
  value: cutOffLanding,
  limit: (x) => x.V_cut + x.V_band,
  catches: ['D03'],
}

/** D04: rail for one count against the step that is allowed. */
export const railStepMargin: MarginSpec<'V_rail' | 'V_bg' | 'N_bits' | 'dV_allowed'> = {
  id: 'rail-step',
  name: 'rail for one count',
  unit: 'V',
  sense: 'at most',
  value: railResolution,
  limit: (x) => x.dV_allowed,
  catches: ['D04'],
}

/** D05: an absolute channel reads too much where its reference sags below what the firmware assumes. */
export const absoluteHighMargin: MarginSpec<'V_assumed' | 'V_ref' | 'e_allowed'> = {
  id: 'absolute-high',
  name: 'absolute channel reading too much',
  unit: '1',
  sense: 'at most',
  value: referenceShift,
  limit: (x) => x.e_allowed,
  catches: ['D05'],
}

/** D05: an absolute channel reads too little where its reference stands above what the firmware assumes. */
export const absoluteLowMargin: MarginSpec<'V_assumed' | 'V_ref' | 'e_allowed'> = {
  id: 'absolute-low',
  name: 'absolute channel reading too little',
  unit: '1',
  sense: 'at least',
  value: referenceShift,
  limit: (x) => -x.e_allowed,
  catches: ['D05'],
}

/** D06: noise against the half count without which averaging gains nothing. */
export const ditherMargin: MarginSpec<'n_rms'> = {
  id: 'dither',
  name: 'noise that averaging needs',
  unit: '1',
  sense: 'at least',
  value: (x) => x.n_rms,
  limit: 0.5,
  catches: ['D06'],
}

/** D07: a sampling instant against five time constants of what an edge disturbs. */
export const edgeMargin: MarginSpec<'t_edge' | 'tau'> = {
  id: 'edge-distance',
  name: 'distance of sampling from the edge',
  unit: 's',
  sense: 'at least',
  value: (x) => x.t_edge,
  limit: (x) => 5 * x.tau,
  catches: ['D07'],
}

/** D08: level of the disconnected pin against the level that counts as open. Take the largest leakage, positive. */
export const openPinMargin: MarginSpec<'I_leak' | 'R_bleed' | 'V_detect'> = {
  id: 'open-pin',
  name: 'level of the open pin',
  unit: 'V',
  sense: 'at most',
  value: bledLevel,
  limit: (x) => x.V_detect,
  catches: ['D08'],
}

/** D08: the resistance that counts as an open load against the largest load and its uncertainty. */
export const openLoadMargin: MarginSpec<'R_open' | 'R_max' | 'U_R'> = {
  id: 'open-load',
  name: 'resistance that counts as open',
  unit: 'ohm',
  sense: 'at least',
  value: (x) => x.R_open,
  limit: (x) => x.R_max + x.U_R,
  catches: ['D08'],
}

/** D09: drop between the cell and where it is tapped. */
export const tapMargin: MarginSpec<'I_cell' | 'R_series' | 'V_F' | 'dV_allowed'> = {
  id: 'tap-drop',
  name: 'drop between cell and tap',
  unit: 'V',
  sense: 'at most',
  value: tapDrop,
  limit: (x) => x.dV_allowed,
  catches: ['D09'],
}

/** E08: length of a window against what its tasks need. */
export const windowMargin: MarginSpec<'t_window' | 't_tasks'> = {
  id: 'window',
  name: 'length of the window',
  unit: 's',
  sense: 'at least',
  value: (x) => x.t_window,
  limit: (x) => x.t_tasks,
  catches: ['E08'],
}

/** F05: current in counts against the ten below which a quotient is no reading (half a count of ten is 5 %). */
export const quotientMargin: MarginSpec<'code_I'> = {
  id: 'quotient',
  name: 'counts of the divisor',
  unit: '1',
  sense: 'at least',
  value: (x) => x.code_I,
  limit: 10,
  catches: ['F05'],
}
