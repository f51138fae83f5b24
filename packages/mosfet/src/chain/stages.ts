import * as f from '../formulas/index.js'
import type { Balance } from '../junction.js'
import { guaranteedLine } from '../table.js'
import type { SwitchInputs, Topology } from '../topology.js'
import type { Chosen } from './formulas-of.js'

/** From the source to the gate: what arrives there when switched on. */
export type GateValues = ReturnType<typeof gateStage>
/** What charges and discharges the gate. */
export type DriveValues = ReturnType<typeof driveStage>
/** The edges of the drain. */
export type TimeValues = ReturnType<typeof timeStage>
/** What the edges cost. */
export type LossValues = ReturnType<typeof lossStage>
/** What an edge does to the transistor. */
export type SurgeValues = ReturnType<typeof surgeStage>
/** The heat with the junction at its limit. */
export type LimitValues = ReturnType<typeof limitStage>
/** What depends on the junction's temperature. */
export type HotValues = ReturnType<typeof hotStage>

export function gateStage(x: SwitchInputs, c: Chosen) {
  const I_max = c.I_max(x)
  const V_rail = f.saggedRail({ V_oc: x.V_oc, I_max, R_s: x.R_s })
  const V_sup = c.V_sup({ V_rail, V_hold: x.V_hold, V_reg: x.V_reg })
  const V_drv = f.driveLevel({ V_sup, V_drop: x.V_drop })
  const R_ser = c.R_ser(x)
  const V_G = c.V_G({ V_drv, R_p: x.R_p, R_ser, R_drv: x.R_drv })
  const V_lift = f.sourceLift({ I_max, R_sh: x.R_sh })
  const V_GS = f.gateSourceVoltage({ V_G, V_lift })
  return { I_max, V_rail, V_sup, V_drv, R_ser, V_G, V_lift, V_GS, V_GShigh: c.V_GShigh(x) }
}

export function driveStage(x: SwitchInputs, { R_ser, V_GShigh }: GateValues, c: Chosen) {
  const { R_p, R_gi, n, I_min } = x
  const R_gon = c.R_gon({ R_ser, R_p, R_gi, n })
  const I_C = c.I_C === undefined ? 0 : c.I_C(x)
  const I_lim = c.I_lim === undefined ? 0 : c.I_lim({ I_C, V_GShigh, R_p, I_min })
  return { R_gon, I_C, I_lim, V_off: c.V_off === undefined ? x.V_off : c.V_off(x), R_goff: c.R_goff(x) }
}

export function timeStage(x: SwitchInputs, { V_GS }: GateValues, drive: DriveValues, c: Chosen) {
  const { V_pl, V_th, V_min, n } = x
  const { R_gon, I_lim, V_off, R_goff } = drive
  const Q_gs2 = f.chargeToPlateau(x)
  const Q_sw = f.switchingCharge({ Q_gs2, Q_gd: x.Q_gd })
  const V_over = f.driveOverPlateau({ V_GS, V_pl, V_min })
  const I_gon = c.I_gon({ V_over, R_gon, I_lim })
  const t_r = f.riseTime({ n, Q_sw, I_gon })
  const V_under = f.pullBelowPlateau({ V_pl, V_th, V_off, V_min })
  const I_goff = c.I_goff({ V_under, R_goff, I_lim })
  return { Q_gs2, Q_sw, V_over, I_gon, t_r, V_under, I_goff, t_f: f.fallTime({ n, Q_sw, I_goff }) }
}

export function lossStage(x: SwitchInputs, { I_max, V_G }: GateValues, { t_r, t_f }: TimeValues, c: Chosen) {
  const { V_oc, n, L_w } = x
  const f_edge = f.edgeFrequency(x)
  const t_edge = f.edgeTime({ t_r, t_f, f: x.f })
  const P_edge = c.P_edge({ V_oc, I_max, f_edge, t_edge, n })
  const P_oss = f.outputCapacitanceLoss({ C_oss: x.C_oss, V_oc, f_edge })
  const P_wire = f.wiringLoss({ L_w, I_max, f_edge, n })
  const P_sw = f.switchingLoss({ P_edge, P_oss, P_wire })
  const P_gate = f.gatePower({ n, Q_g: x.Q_g, V_G, f_edge })
  return { f_edge, t_edge, P_edge, P_oss, P_wire, P_sw, P_gate }
}

export function surgeStage({ V_oc, L_w, n }: SwitchInputs, { I_max }: GateValues, times: TimeValues, c: Chosen) {
  const { t_f, Q_sw, Q_gs2 } = times
  return {
    V_pk: c.V_pk({ V_oc, L_w, I_max, t_f, Q_sw, Q_gs2 }),
    E_w: f.wiringEnergy({ L_w, I_max }),
    P_pk: c.P_pk({ V_oc, I_max, n }),
  }
}

export function limitStage(x: SwitchInputs, V_GS: number, P_sw: number, { law, onResistance }: Topology, c: Chosen) {
  const { V_oc, R_s, R_L, R_sh, n, D, I_set, T_lim } = x
  const line = onResistance[guaranteedLine(onResistance, V_GS)]!
  const R_gua = line.maximum
  const R_typ = line.typical ?? R_gua
  const R_on = f.coldResistance({ R_typ, q_R: x.q_R, R_gua })
  const R_top = f.limitResistance({ R_on, rho_top: law.factor(T_lim) })
  const I_top = c.I_top({ V_oc, R_s, R_L, R_sh, R_top, n, I_set })
  const P_ctop = f.limitConductionLoss({ I_top, n, D, R_top })
  const P_top = f.limitLoss({ P_ctop, P_sw })
  const T_spare = f.thermalSlack({ T_lim, T_a: x.T_a, R_thJA: x.R_thJA, P_top })
  return { R_gua, R_typ, R_on, R_top, I_top, P_ctop, P_top, T_spare }
}

export function hotStage(x: SwitchInputs, R_on: number, P_sw: number, T: number, { law }: Topology, c: Chosen) {
  const { n, D } = x
  const rho = law.factor(T)
  const R_hot = f.hotResistance({ R_on, rho })
  const I = c.I({ V_oc: x.V_oc, R_s: x.R_s, R_L: x.R_L, R_sh: x.R_sh, R_hot, n, I_set: x.I_set })
  const P_cond = f.conductionLoss({ I, n, D, R_hot })
  const P = f.totalLoss({ P_cond, P_sw })
  const T_j = f.junctionTemperature({ T_a: x.T_a, R_thJA: x.R_thJA, P })
  return { rho, R_hot, I, I_rms: f.pulsedCurrent({ I, D }), P_cond, P, T_j }
}

/** Heat balance of one device. */
export function balanceOf(x: SwitchInputs, R_on: number, P_0: number, { load }: Topology): Balance {
  const { T_a, R_thJA: R_th, n, D, V_oc, R_s, R_L, R_sh } = x
  if (load === 'current') return { T_a, R_th, P_0, D, R_on, V: x.I_set / n, r: 1, k: 0 }
  return { T_a, R_th, P_0, D, R_on, V: V_oc, r: n * (R_s + R_L + R_sh), k: 1 }
}
