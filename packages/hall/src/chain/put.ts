import type { Columns } from '@ohmward/budget'
import { zeroCurrent } from '../formulas/index.js'
import type { Workspace } from './follow.js'

/** Columns of any inputs. */
export type Any = Columns<string>

/** Puts the parts, row `i` of their columns, into a workspace. */
export function putParts(y: Workspace, c: Any, i: number): void {
  y.V_s0 = c.V_s0![i]!
  y.V_q0 = c.V_q0![i]!
  y.S_0 = c.S_0![i]!
  y.V_above = c.V_above![i]!
  y.V_below = c.V_below![i]!
  y.V_oe = c.V_oe![i]!
  y.D_oe = c.D_oe![i]!
  y.m_q = c.m_q![i]!
  y.e_S = c.e_S![i]!
  y.e_Sa = c.e_Sa![i]!
  y.TC_S = c.TC_S![i]!
  y.m_S = c.m_S![i]!
  y.V_ol = c.V_ol![i]!
  y.V_oh = c.V_oh![i]!
  y.R_o = c.R_o![i]!
  y.R_t = c.R_t![i]!
  y.R_b = c.R_b![i]!
  y.R_filt = c.R_filt![i]!
  y.C_f = c.C_f![i]!
  y.t_set = c.t_set![i]!
  y.tau_s = c.tau_s![i]!
  y.V_lk = c.V_lk![i]!
  y.N_bits = c.N_bits![i]!
  y.h_code = c.h_code![i]!
  y.e_gain = c.e_gain![i]!
  y.e_offset = c.e_offset![i]!
  y.V_qn = c.V_qn![i]!
  y.S_n = c.S_n![i]!
  y.k_dn = c.k_dn![i]!
  y.V_refn = c.V_refn![i]!
}

/**
 * Puts temperature and rail, and the supply and reference that aren't the rail: those have columns of their own.
 */
export function putMoment(y: Workspace, c: Any, i: number, T_d: number, V_rail: number): void {
  y.T_d = T_d
  y.V_rail = V_rail
  if (c.V_s) y.V_s = c.V_s[i]!
  if (!c.V_ref0) return
  y.V_ref0 = c.V_ref0[i]!
  y.TC_ref = c.TC_ref![i]!
}

/** Puts what a reading in use has: a current, what it shifts, its own noise and rounding. */
export function putUse(y: Workspace, c: Any, i: number): void {
  y.I_x = c.I_x![i]!
  y.D_x = c.D_x![i]!
  y.V_L = c.V_L![i]!
  y.V_h = c.V_h![i]!
  y.V_B = c.V_B![i]!
  y.V_nb = c.V_nb![i]!
  y.V_n = c.V_n![i]!
  y.V_oa = c.V_oa![i]!
  y.n_miss = c.n_miss![i]!
  y.w_x = c.w_x![i]!
  y.e_INL = c.e_INL![i]!
  y.e_q = c.e_q![i]!
  y.e_n = c.e_n![i]!
}

/** The names that inputs of the zero's reading have among all inputs, where they aren't those of the reading in use. */
export const namesInZero: Readonly<Record<string, readonly string[]>> = {
  T_d: ['T_c'],
  V_rail: ['V_railc'],
  V_s: ['V_sc'],
  I_x: ['I_rest', 'I_held'],
  V_h: ['V_hz'],
  V_B: ['V_Bz'],
  V_n: ['V_nz'],
  n_miss: ['n_missz'],
  e_INL: ['e_INLz'],
  e_q: ['e_qz'],
  e_n: ['e_nz'],
}

/**
 * Puts what a reading of the zero has: load off, a supply of the sensor that isn't sagged, its own noise and rounding. `fresh`: taken just before the use, with
 * the same age, remanence, field and leakage. A pin that leaks when hot hardly leaks in a zero that was read once.
 */
export function putZero(y: Workspace, c: Any, i: number, fresh: boolean): void {
  if (c.V_sc) y.V_s = c.V_sc[i]!
  y.I_x = zeroCurrent({ I_rest: c.I_rest![i]!, I_held: c.I_held![i]! })
  y.D_x = 1
  y.V_L = 0
  y.V_h = fresh ? c.V_h![i]! : c.V_hz![i]!
  y.V_B = fresh ? c.V_B![i]! : c.V_Bz![i]!
  y.V_nb = 0
  y.V_n = c.V_nz![i]!
  y.n_miss = c.n_missz![i]!
  y.V_oa = fresh ? c.V_oa![i]! : 0
  y.w_x = 0
  y.t_set = Infinity
  if (!fresh) y.V_lk = 0
  y.e_INL = c.e_INLz![i]!
  y.e_q = c.e_qz![i]!
  y.e_n = c.e_nz![i]!
}
