import { hotThreshold } from '../formulas/index.js'
import type { MosfetInputs } from '../inputs.js'
import type { MarginContext } from './spec.js'

/** Smallest threshold at a junction temperature. */
export const thresholdAt = (celsius: number) => (x: MosfetInputs) =>
  hotThreshold({ V_th: x.V_th, k_th: x.k_th, T_hot: celsius, T_ref: x.T_ref })

/** What {@link thresholdAt} reads. */
export const thresholdReads = ['V_th', 'k_th', 'T_ref']

/** Resistance that holds the gate while nothing drives it. */
export const holdingResistance =
  ({ read: { drive } }: MarginContext) =>
  (x: MosfetInputs): number =>
    drive.pull === 'drive' ? x.R_p + x.R_g : x.R_p
