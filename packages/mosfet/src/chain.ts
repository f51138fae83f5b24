import type { AnyFormula } from '@ohmward/budget'
import * as f from './formulas/index.js'
import { type Balance, type Junction, solveJunction } from './junction.js'
import { guaranteedLine } from './table.js'
import type { SwitchInputs, Topology } from './topology.js'

/** What the chain computes before any junction temperature is known. */
export type ColdValues = ReturnType<typeof coldValues>

/** What depends on the junction's temperature. */
export type HotValues = ReturnType<typeof hotValues>

/** A switch: its formulas in the order of calculation, and its chain from source, load and parts to temperature. */
export interface Switch {
  readonly topology: Topology
  readonly formulas: readonly AnyFormula[]
  /** Everything that needs no junction temperature, the slack at the junction limit included. */
  cold(x: SwitchInputs): ColdValues
  /** Everything at a junction temperature in °C; `T_j` in it is what that temperature's loss makes of it. */
  hot(x: SwitchInputs, cold: ColdValues, celsius: number): HotValues
  /** Heat balance of one device. */
  balance(x: SwitchInputs, cold: ColdValues): Balance
  /** Junction temperature, solved; or runaway. */
  junction(x: SwitchInputs): Junction
}

type Chosen = ReturnType<typeof choose>

/** Prepares a topology: which formulas hold, picked once. */
export function switchOf(topology: Topology): Switch {
  const chosen = choose(topology)
  const cold = (x: SwitchInputs) => coldValues(x, topology, chosen)
  return {
    topology,
    formulas: formulasOf(chosen),
    cold,
    hot: (x, values, celsius) => hotValues(x, values, celsius, topology, chosen),
    balance: (x, values) => balanceOf(x, values, topology),
    junction: (x) => solveJunction(balanceOf(x, cold(x), topology), topology.law),
  }
}

function choose({ load, edges, supply, pull, off, limited, base, offLevel, law }: Topology) {
  const held = load === 'current'
  const inductive = edges === 'clamped inductive'
  const own = supply === 'regulated'
  const divided = pull === 'gate'
  const passive = divided ? f.passivePathOff : f.passivePathOffThroughGate
  const driven = divided ? f.dividedPathOff : f.wholePathOff
  const rho = law.text.kind
  return {
    I_max: (held ? f.heldLargestCurrent : f.largestCurrent) as AnyFormula,
    V_sup: (own ? f.regulatedSupply : f.driveSupply) as AnyFormula,
    V_GShigh: (own ? f.highestRegulatedGateSource : f.highestGateSource) as AnyFormula,
    V_G: (divided ? f.dividedLevel : f.wholeLevel) as AnyFormula,
    R_gon: (divided ? f.dividedPathOn : f.wholePathOn) as AnyFormula,
    R_goff: (off === 'pull' ? passive : driven) as AnyFormula,
    V_off: offLevel === 'fixed' ? undefined : f.pinOffLevel,
    I_C: (limited === 'neither' ? undefined : base === 'shared' ? f.sharedCollectorCurrent : f.collectorCurrent) as
      | AnyFormula
      | undefined,
    I_gon: (limited === 'on' ? f.limitedGateCurrentOn : f.gateCurrentOn) as AnyFormula,
    I_goff: (limited === 'off' ? f.limitedGateCurrentOff : f.gateCurrentOff) as AnyFormula,
    P_edge: inductive ? f.inductiveEdgeLoss : f.resistiveEdgeLoss,
    P_pk: inductive ? f.inductiveEdgePeakPower : f.edgePeakPower,
    rho: (rho === 'linear' ? f.linearFactor : rho === 'power' ? f.powerFactor : undefined) as AnyFormula | undefined,
    I: (held ? f.heldCurrent : f.loadCurrent) as AnyFormula,
    I_top: (held ? f.heldLimitCurrent : f.limitCurrent) as AnyFormula,
  }
}

function formulasOf(c: Chosen): AnyFormula[] {
  return [
    c.I_max,
    f.saggedRail,
    c.V_sup,
    f.driveLevel,
    f.seriesResistance,
    c.V_G,
    f.sourceLift,
    f.gateSourceVoltage,
    c.V_GShigh,
    f.coldResistance,
    c.rho,
    f.hotResistance,
    c.I,
    f.pulsedCurrent,
    f.conductionLoss,
    f.chargeToPlateau,
    f.switchingCharge,
    f.driveOverPlateau,
    c.R_gon,
    c.I_C,
    c.I_gon,
    f.riseTime,
    c.V_off,
    f.pullBelowPlateau,
    c.R_goff,
    c.I_goff,
    f.fallTime,
    f.edgeFrequency,
    c.P_edge,
    f.outputCapacitanceLoss,
    f.wiringLoss,
    f.switchingLoss,
    f.totalLoss,
    f.junctionTemperature,
    f.gatePower,
    f.limitResistance,
    c.I_top,
    f.limitConductionLoss,
    f.limitLoss,
    f.thermalSlack,
    f.turnOffPeak,
    f.wiringEnergy,
    c.P_pk,
  ].filter((formula) => formula !== undefined)
}

function coldValues(x: SwitchInputs, { law, onResistance }: Topology, c: Chosen) {
  const { V_oc, R_s, R_sh, n, D, V_pl, V_min } = x
  const I_max = c.I_max(x)
  const V_rail = f.saggedRail({ V_oc, I_max, R_s })
  const V_sup = c.V_sup({ V_rail, V_hold: x.V_hold, V_reg: x.V_reg })
  const V_drv = f.driveLevel({ V_sup, V_drop: x.V_drop })
  const R_ser = f.seriesResistance(x)
  const V_G = c.V_G({ V_drv, R_p: x.R_p, R_ser })
  const V_lift = f.sourceLift({ I_max, R_sh })
  const V_GS = f.gateSourceVoltage({ V_G, V_lift })
  const line = onResistance[guaranteedLine(onResistance, V_GS)]!
  const R_gua = line.maximum
  const R_typ = line.typical ?? R_gua
  const R_on = f.coldResistance({ R_typ, q_R: x.q_R, R_gua })
  const Q_gs2 = f.chargeToPlateau(x)
  const Q_sw = f.switchingCharge({ Q_gs2, Q_gd: x.Q_gd })
  const V_over = f.driveOverPlateau({ V_GS, V_pl, V_min })
  const R_gon = c.R_gon({ R_ser, R_p: x.R_p, R_gi: x.R_gi, n })
  const I_C = c.I_C === undefined ? 0 : c.I_C(x)
  const I_gon = c.I_gon({ V_over, R_gon, I_C })
  const t_r = f.riseTime({ n, Q_sw, I_gon })
  const V_off = c.V_off === undefined ? x.V_off : c.V_off(x)
  const V_under = f.pullBelowPlateau({ V_pl, V_off, V_min })
  const R_goff = c.R_goff(x)
  const I_goff = c.I_goff({ V_under, R_goff, I_C })
  const t_f = f.fallTime({ n, Q_sw, I_goff })
  const f_edge = f.edgeFrequency(x)
  const P_edge = c.P_edge({ V_oc, I_max, f_edge, t_r, t_f, n })
  const P_oss = f.outputCapacitanceLoss({ C_oss: x.C_oss, V_oc, f_edge })
  const P_wire = f.wiringLoss({ L_w: x.L_w, I_max, f_edge, n })
  const P_sw = f.switchingLoss({ P_edge, P_oss, P_wire })
  const P_gate = f.gatePower({ n, Q_g: x.Q_g, V_G, f_edge })
  const R_top = f.limitResistance({ R_on, rho_top: law.factor(x.T_lim) })
  const I_top = c.I_top({ V_oc, R_s, R_L: x.R_L, R_sh, R_top, n, I_set: x.I_set })
  const P_ctop = f.limitConductionLoss({ I_top, n, D, R_top })
  const P_top = f.limitLoss({ P_ctop, P_sw })
  const T_spare = f.thermalSlack({ T_lim: x.T_lim, T_a: x.T_a, R_thJA: x.R_thJA, P_top })
  const V_pk = f.turnOffPeak({ V_oc, L_w: x.L_w, I_max, t_f })
  const E_w = f.wiringEnergy({ L_w: x.L_w, I_max })
  return {
    I_max,
    V_rail,
    V_sup,
    V_drv,
    R_ser,
    V_G,
    V_lift,
    V_GS,
    V_GShigh: c.V_GShigh(x),
    R_gua,
    R_typ,
    R_on,
    Q_gs2,
    Q_sw,
    V_over,
    R_gon,
    I_C,
    I_gon,
    t_r,
    V_off,
    V_under,
    R_goff,
    I_goff,
    t_f,
    f_edge,
    P_edge,
    P_oss,
    P_wire,
    P_sw,
    P_gate,
    R_top,
    I_top,
    P_ctop,
    P_top,
    T_spare,
    V_pk,
    E_w,
    P_pk: c.P_pk({ V_oc, I_max, n }),
  }
}

function hotValues(x: SwitchInputs, cold: ColdValues, T: number, { law }: Topology, c: Chosen) {
  const { n, D } = x
  const rho = law.factor(T)
  const R_hot = f.hotResistance({ R_on: cold.R_on, rho })
  const I = c.I({ V_oc: x.V_oc, R_s: x.R_s, R_L: x.R_L, R_sh: x.R_sh, R_hot, n, I_set: x.I_set })
  const P_cond = f.conductionLoss({ I, n, D, R_hot })
  const P = f.totalLoss({ P_cond, P_sw: cold.P_sw })
  const T_j = f.junctionTemperature({ T_a: x.T_a, R_thJA: x.R_thJA, P })
  return { rho, R_hot, I, I_rms: f.pulsedCurrent({ I, D }), P_cond, P, T_j }
}

function balanceOf(x: SwitchInputs, { P_sw, R_on }: ColdValues, { load }: Topology): Balance {
  const { T_a, n, D, V_oc, R_s, R_L, R_sh } = x
  const held = load === 'current'
  return {
    T_a,
    R_th: x.R_thJA,
    P_0: P_sw,
    D,
    R_on,
    V: held ? x.I_set / n : V_oc,
    r: held ? 1 : n * (R_s + R_L + R_sh),
    k: held ? 0 : 1,
  }
}
