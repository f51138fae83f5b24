import type { Columns, PlaceOf } from '@ohmward/budget'
import * as f from '../formulas/index.js'
import type { Chosen, formulasOf } from './chosen.js'
import type { MosfetSymbol } from './inputs.js'
import type { SteadySymbol } from './steady.js'

type Listed = ReturnType<typeof formulasOf>

/** Place of work of a switch, whatever its topology: inputs and computed values by symbol. */
export type Place = PlaceOf<Listed[keyof Listed][number][], MosfetSymbol | SteadySymbol>

/** A symbol that stands in the place of work. */
export type PlaceSymbol = keyof Place & string

/** Puts row `i` of the inputs' columns into a place, in which what is steady stands already. */
export function put(y: Place, c: Columns<MosfetSymbol>, i: number): void {
  y.V_oc = c.V_oc[i]!
  y.R_s = c.R_s[i]!
  y.R_L = c.R_L[i]!
  y.I_set = c.I_set[i]!
  y.R_sh = c.R_sh[i]!
  y.D = c.D[i]!
  y.T_a = c.T_a[i]!
  y.R_thJA = c.R_thJA[i]!
  y.R_thDC = c.R_thDC[i]!
  y.R_thn = c.R_thn[i]!
  y.Z_b = c.Z_b[i]!
  y.Z_last = c.Z_last[i]!
  y.T_hot = c.T_hot[i]!
  y.V_hold = c.V_hold[i]!
  y.V_reg = c.V_reg[i]!
  y.V_drop = c.V_drop[i]!
  y.R_drv = c.R_drv[i]!
  y.R_snk = c.R_snk[i]!
  y.R_g = c.R_g[i]!
  y.R_p = c.R_p[i]!
  y.R_gi = c.R_gi[i]!
  y.V_off = c.V_off[i]!
  y.V_high = c.V_high[i]!
  y.V_BE = c.V_BE[i]!
  y.R_b = c.R_b[i]!
  y.R_be = c.R_be[i]!
  y.R_bp = c.R_bp[i]!
  y.I_leak = c.I_leak[i]!
  y.q_R = c.q_R[i]!
  y.Q_gs = c.Q_gs[i]!
  y.Q_gd = c.Q_gd[i]!
  y.Q_g = c.Q_g[i]!
  y.V_pl = c.V_pl[i]!
  y.V_th = c.V_th[i]!
  y.C_iss = c.C_iss[i]!
  y.C_gd = c.C_gd[i]!
  y.C_rss = c.C_rss[i]!
  y.C_oss = c.C_oss[i]!
  y.L_w = c.L_w[i]!
  y.V_F = c.V_F[i]!
}

/** From the source to the gate: what arrives there when switched on. */
export function followGate(y: Place, c: Chosen): void {
  y.Z_end = f.curveEnd(y)
  y.I_max = c.I_max(y)
  y.I_D = f.deviceCurrent(y)
  y.V_rail = f.saggedRail(y)
  y.V_sup = c.V_sup(y)
  y.V_drv = f.driveLevel(y)
  y.R_ser = c.R_ser(y)
  y.V_G = c.V_G(y)
  y.V_lift = f.sourceLift(y)
  y.V_GS = f.gateSourceVoltage(y)
  y.V_need = f.neededLevel(y)
  y.V_GShigh = c.V_GShigh(y)
}

/** What charges and discharges the gate. */
export function followDrive(y: Place, c: Chosen): void {
  y.R_gon = c.R_gon(y)
  y.tau_g = f.gateTimeConstant(y)
  if (c.I_pin) y.I_pin = c.I_pin(y)
  if (c.I_C) y.I_C = c.I_C(y)
  if (c.I_p) y.I_p = c.I_p(y)
  if (c.I_lim) y.I_lim = c.I_lim(y)
  if (c.D_p) y.D_p = c.D_p(y)
  if (c.P_p) y.P_p = c.P_p(y)
  if (c.V_off) y.V_off = c.V_off(y)
  y.R_goff = c.R_goff(y)
}

/**
 * What holds the gate while nothing drives it.
 *
 * @param impedance - of a single pulse, by its length
 */
export function followOff(y: Place, c: Chosen, impedance: (seconds: number) => number): void {
  y.V_thhot = f.hotThreshold(y)
  if (c.R_hold) y.R_hold = c.R_hold(y)
  if (c.V_hold0) y.V_hold0 = c.V_hold0(y)
  if (c.V_rest) y.V_rest = c.V_rest(y)
  if (c.V_base) y.V_base = c.V_base(y)
  if (c.V_reset) y.V_reset = c.V_reset(y)
  if (c.I_Creset) y.I_Creset = c.I_Creset(y)
  if (c.V_thair) y.V_thair = c.V_thair(y)
  if (c.C_issn) y.C_issn = c.C_issn(y)
  if (c.C_gdn) y.C_gdn = c.C_gdn(y)
  if (c.V_cpl) y.V_cpl = c.V_cpl(y)
  if (c.t_con) y.t_con = c.t_con(y)
  if (c.t_con) y.Z_pc = impedance(y.t_con)
  if (c.Z_con) y.Z_con = c.Z_con(y)
  if (c.P_con) y.P_con = c.P_con(y)
  if (c.T_con) y.T_con = c.T_con(y)
}

/** The edges of the drain. */
export function followEdges(y: Place, c: Chosen): void {
  y.Q_gs2 = f.chargeToPlateau(y)
  y.Q_sw = f.switchingCharge(y)
  y.V_over = f.driveOverPlateau(y)
  y.I_gon = c.I_gon(y)
  y.t_r = f.riseTime(y)
  y.Q_gs1 = f.chargeToThreshold(y)
  y.I_gdon = c.I_gdon(y)
  y.t_don = c.t_don(y)
  y.t_ton = f.wholeOn(y)
  y.V_under = f.pullBelowPlateau(y)
  y.I_goff = c.I_goff(y)
  y.t_f = f.fallTime(y)
  y.Q_on = f.chargeAbovePlateau(y)
  y.I_gdoff = c.I_gdoff(y)
  y.t_doff = c.t_doff(y)
  y.t_slow = f.longerEdge(y)
  y.I_gth = c.I_gth(y)
  y.I_gpl = c.I_gpl(y)
  y.V_head = c.V_head(y)
  if (c.V_tail) y.V_tail = c.V_tail(y)
  y.V_pk = c.V_pk(y)
  if (c.a_pk) y.a_pk = c.a_pk(y)
  y.P_pk = c.P_pk(y)
  y.t_spk = f.spikeTime(y)
  y.t_toff = f.wholeOff(y)
  y.f_edge = f.edgeFrequency(y)
}

/**
 * What the edges cost, and what goes into the heat beside them.
 *
 * @param impedance - of a single pulse, by its length
 */
export function followLosses(y: Place, c: Chosen, impedance: (seconds: number) => number): void {
  y.D_on = f.realDuty(y)
  y.t_edge = f.edgeTime(y)
  y.P_edge = c.P_edge(y)
  y.P_oss = f.outputCapacitanceLoss(y)
  y.P_wire = f.wiringLoss(y)
  y.P_sw = f.switchingLoss(y)
  y.P_gate = f.gatePower(y)
  y.R_on = f.coldResistance(y)
  if (c.R_thJA) y.R_thJA = c.R_thJA(y)
  y.t_on = f.onTime(y)
  y.Z_p = impedance(y.t_on)
  y.Z_on = c.Z_on(y)
  y.t_pk = f.edgePulse(y)
  y.Z_pk = impedance(y.t_pk)
  y.Z_edge = c.Z_edge(y)
  y.T_edge = f.edgeRise(y)
}

/** The heat with the junction at its temperature `T_j`. */
export function followHot(y: Place, c: Chosen): void {
  y.rho = c.rho(y)
  y.R_hot = f.hotResistance(y)
  y.I = c.I(y)
  y.I_rms = f.realPulsedCurrent(y)
  y.P_cond = f.realConductionLoss(y)
  y.P = f.totalLoss(y)
  y.P_on = f.pulsePower(y)
  y.T_rip = f.ripple(y)
}

/** The heat with the junction at its limit. */
export function followLimit(y: Place, c: Chosen): void {
  y.rho_top = c.rho_top(y)
  y.R_top = f.limitResistance(y)
  y.I_top = c.I_top(y)
  y.P_ctop = f.limitConductionLoss(y)
  y.P_top = f.limitLoss(y)
  y.P_ontop = f.limitPulsePower(y)
  y.T_riptop = f.limitRipple(y)
  y.T_top = f.limitTemperature(y)
  y.T_spare = f.thermalSlack(y)
  if (c.P_swmax) y.P_swmax = c.P_swmax(y)
}

/** What an edge does to the transistor. */
export function followSurge(y: Place, c: Chosen): void {
  y.E_w = f.wiringEnergy(y)
  if (c.P_fw) y.P_fw = c.P_fw(y)
  if (c.E_av) y.E_av = c.E_av(y)
  if (c.E_hot) y.E_hot = c.E_hot(y)
  if (c.P_alone) y.P_alone = c.P_alone(y)
  if (c.P_soa) y.P_soa = c.P_soa(y)
}
