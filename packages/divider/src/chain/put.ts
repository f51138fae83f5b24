import { absoluteReference } from '@ohmward/adc/formulas'
import type { Columns } from '@ohmward/budget'
import { matchedFeedback, matchedLower, matchedUpper } from '../formulas/index.js'
import type { DifferenceWorkspace } from './difference.js'
import type { Workspace } from './grounded.js'

/** Columns of any inputs. */
export type Any = Columns<string>

type Shared = Pick<Workspace, keyof Workspace & keyof DifferenceWorkspace>

/** Puts what is the same in every row: how the chain is built, and the firmware's constants. */
function putConstants(y: Shared, c: Any): void {
  y.kappa = c.kappa![0]!
  y.N_bits = c.N_bits![0]!
  y.h_code = c.h_code![0]!
  y.R_refn = c.R_refn![0]!
  y.R_swn = c.R_swn![0]!
  y.R_leadn = c.R_leadn![0]!
  y.V_satn = c.V_satn![0]!
  y.V_excn = c.V_excn![0]!
  y.V_refn = c.V_refn![0]!
}

/** What is seldom given with a spread: put in every row only where it has one. */
export const steady = [
  'V_sat',
  'R_thref',
  'd_m',
  'R_ds',
  'I_off',
  'R_sh',
  'V_ps',
  'V_cms',
  'V_age',
  'd_ref',
  'd_G',
  'V_oh',
  'V_ol',
  'R_filt',
] as const

/** Puts what is steady. */
export function putSteady(y: Shared, c: Any, i: number): void {
  y.V_sat = c.V_sat![i]!
  y.R_thref = c.R_thref![i]!
  y.d_m = c.d_m![i]!
  y.R_ds = c.R_ds![i]!
  y.I_off = c.I_off![i]!
  y.R_sh = c.R_sh![i]!
  y.V_ps = c.V_ps![i]!
  y.V_cms = c.V_cms![i]!
  y.V_age = c.V_age![i]!
  y.d_ref = c.d_ref![i]!
  y.d_G = c.d_G![i]!
  y.V_oh = c.V_oh![i]!
  y.V_ol = c.V_ol![i]!
  y.R_filt = c.R_filt![i]!
}

/** Puts what both chains share, but for the moment of the reading, into a workspace: row `i` of the parts' columns. */
function putShared(y: Shared, c: Any, i: number): void {
  y.R_sw = c.R_sw![i]!
  y.R_ref = c.R_ref![i]!
  y.alpha_ref = c.alpha_ref![i]!
  y.R_lead = c.R_lead![i]!
  y.V_os = c.V_os![i]!
  y.D_os = c.D_os![i]!
  y.m_ps = c.m_ps![i]!
  y.m_cm = c.m_cm![i]!
  y.I_b = c.I_b![i]!
  y.I_os = c.I_os![i]!
  y.alpha_G = c.alpha_G![i]!
  y.a_ol = c.a_ol![i]!
  y.I_pin = c.I_pin![i]!
  y.e_gain = c.e_gain![i]!
  y.e_offset = c.e_offset![i]!
}

/** Puts the parts of a load at ground; constants with row 0, from which every run through the columns starts. */
export function putGrounded(y: Workspace, c: Any, i: number): void {
  if (i === 0) {
    putConstants(y, c)
    y.p_pedn = c.p_pedn![0]!
    y.G_n = c.G_n![0]!
  }
  putShared(y, c, i)
  y.R_g = c.R_g![i]!
  y.R_f = c.R_f ? c.R_f[i]! : matchedFeedback({ R_g: y.R_g, n_net: c.n_net![0]!, e_net: c.e_net![i]! })
  y.R_p = c.R_p![i]!
  y.I_leak = c.I_leak![i]!
  y.p_ped = c.p_ped![i]!
}

/** Puts the parts of a load at the rail; constants with row 0. */
export function putAtRail(y: DifferenceWorkspace, c: Any, i: number): void {
  if (i === 0) {
    putConstants(y, c)
    y.R_cn = c.R_cn![0]!
    y.g_n = c.g_n![0]!
  }
  putShared(y, c, i)
  y.R_a = c.R_a![i]!
  y.R_c = c.R_c![i]!
  y.R_b = c.R_b ? c.R_b[i]! : matchedUpper({ R_a: y.R_a, n_net: c.n_net![0]!, e_netP: c.e_netP![i]! })
  y.R_d = c.R_d ? c.R_d[i]! : matchedLower({ R_c: y.R_c, n_net: c.n_net![0]!, e_net: c.e_net![i]! })
  y.alpha_P = c.alpha_P![i]!
  y.d_P = c.d_P![i]!
}

/**
 * Puts the moment of a reading: what isn't a part. Excitation, amplifier supply and reference are the rail, one
 * variable, unless they have a column of their own.
 *
 * @param isOneNode - whether the excitation is the converter's reference, whatever that is
 */
export function putMoment(
  y: Shared,
  c: Any,
  i: number,
  R_x: number,
  T_d: number,
  V_rail: number,
  isOneNode: boolean,
): void {
  y.R_x = R_x
  y.T_d = T_d
  y.V_add = 0
  y.e_add = 0
  y.V_amp = c.V_amp ? c.V_amp[i]! : V_rail
  y.V_ref = c.V_ref0 ? absoluteReference({ V_ref0: c.V_ref0[i]!, TC_ref: c.TC_ref![i]!, dT: T_d }) : V_rail
  y.V_exc = c.V_exc ? c.V_exc[i]! : isOneNode ? y.V_ref : V_rail
}

/** Puts what only a reading in use has: moved contacts, warm junctions, others' ground current; its noise and rounding. */
export function putUse(y: Shared, c: Any, i: number): void {
  y.R_con = c.R_con![i]!
  y.V_emf = c.V_emf![i]!
  y.I_o = c.I_o![i]!
  putOwn(y, i, c.V_n!, c.e_q!, c.e_n!, c.e_INL!, c.s_set!)
}

/** Puts what a reading has of its own: noise, rounding, its place on the converter's curve, what is still unsettled. */
export function putOwn(
  y: Shared,
  i: number,
  V_n: Float64Array,
  e_q: Float64Array,
  e_n: Float64Array,
  e_INL: Float64Array,
  s_set: Float64Array,
): void {
  y.V_n = V_n[i]!
  y.e_q = e_q[i]!
  y.e_n = e_n[i]!
  y.e_INL = e_INL[i]!
  y.s_set = s_set[i]!
}

/**
 * Puts what a reading on the bench lacks: contacts are as they are, nothing is warm, the ground is quiet, the parts are new.
 * Clamp and power switch leak as stated when hot, and next to nothing here: a calibration can't take that away.
 */
export function putBench(y: Shared): void {
  y.R_con = 0
  y.V_emf = 0
  y.I_o = 0
  y.I_off = 0
  y.V_age = 0
  y.d_ref = 0
  y.d_G = 0
  if ('d_P' in y) y.d_P = 0
  if ('I_leak' in y) y.I_leak = 0
}
