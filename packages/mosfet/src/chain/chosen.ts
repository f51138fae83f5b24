import * as f from '../formulas/index.js'
import type { Topology } from './topology.js'

const law = {
  linear: { here: f.linearFactor, top: f.limitLinear },
  power: { here: f.powerFactor, top: f.limitPower },
  points: { here: f.curveFactor, top: f.limitCurve },
}
const currents = {
  resistance: { most: f.largestCurrent, here: f.loadCurrent, top: f.limitCurrent },
  current: { most: f.heldLargestCurrent, here: f.heldCurrent, top: f.heldLimitCurrent },
}
const edges = {
  resistive: {
    loss: f.resistiveEdgeLoss,
    tail: f.spikeTail,
    head: f.spikeHead,
    peak: f.spikePeak,
    share: f.peakShare,
    power: f.edgePeakPower,
  },
  'clamped inductive': {
    loss: f.clampedEdgeLoss,
    tail: undefined,
    head: f.inductiveSpikeHead,
    peak: f.inductiveSpikePeak,
    share: undefined,
    power: f.inductiveEdgePeakPower,
  },
}
const supplies = {
  rail: { here: f.driveSupply, most: f.highestGateSource },
  regulated: { here: f.regulatedSupply, most: f.highestRegulatedGateSource },
}
const pulls = {
  gate: { level: f.dividedLevel, on: f.dividedPathOn, off: f.dividedPathOff, alone: f.passivePathOff },
  drive: { level: f.driveSideLevel, on: f.wholePathOn, off: f.wholePathOff, alone: f.passivePathOffThroughGate },
  none: { level: f.wholeLevel, on: f.wholePathOn, off: f.wholePathOff, alone: f.passivePathOffThroughGate },
}
const collector = { shared: f.sharedCollectorCurrent, alone: f.collectorCurrent }
const holding = { gate: f.holdingAtGate, drive: f.holdingAtDrive, none: undefined }
const bases = {
  floating: f.floatingBase,
  held: f.heldBase,
  pulled: f.pulledBase,
  'pulled by controller': f.pulledBaseByController,
}
const followerBases = {
  floating: f.floatingBase,
  held: f.heldFollowerBase,
  pulled: f.pulledFollowerBase,
  'pulled by controller': f.pulledFollowerBase,
}

/** The formulas that a topology picks among several for the same symbol, and those that it alone needs. */
export type Chosen = ReturnType<typeof chosenFor>

/** Picks them once, so that the chain asks nothing while it runs. */
export function chosenFor(t: Topology) {
  const isLimited = t.limited !== 'neither'
  const pull = pulls[t.pull]
  const isHeld = t.holding !== 'none'
  return {
    R_thJA: t.heat === 'bursts' ? f.burstResistance : undefined,
    Z_on: t.heat === 'bursts' ? f.pulseImpedance : f.steadyPulseImpedance,
    Z_edge: t.heat === 'bursts' ? f.edgeImpedance : f.steadyEdgeImpedance,
    I_max: currents[t.load].most,
    V_sup: supplies[t.supply].here,
    R_ser: t.charge === 'pull' ? f.pullSeriesResistance : f.seriesResistance,
    V_G: pull.level,
    V_GShigh: supplies[t.supply].most,
    R_gon: pull.on,
    R_goff: t.off === 'pull' ? pull.alone : pull.off,
    V_off: t.offLevel === 'fixed' ? undefined : f.pinOffLevel,
    I_C: isLimited ? collector[t.base] : undefined,
    I_p: isLimited ? f.pullCurrent : undefined,
    I_lim: isLimited ? f.currentForGate : undefined,
    D_p: { on: f.onShare, off: f.offShare, neither: undefined }[t.limited],
    P_p: isLimited ? f.pullPower : t.pull === 'none' ? undefined : f.onPullPower,
    I_pin: isLimited ? undefined : f.peakPinCurrent,
    I_gon: t.limited === 'on' ? f.limitedGateCurrentOn : f.gateCurrentOn,
    I_goff: t.limited === 'off' ? f.limitedGateCurrentOff : f.gateCurrentOff,
    P_edge: edges[t.edges].loss,
    I_gdon: t.limited === 'on' ? f.limitedDelayCurrentOn : f.delayCurrentOn,
    I_gdoff: t.limited === 'off' ? f.limitedDelayCurrentOff : f.delayCurrentOff,
    t_don: t.limited === 'off' ? f.storedDelayOn : f.delayOn,
    t_doff: t.limited === 'on' ? f.storedDelayOff : f.delayOff,
    I_gth: t.limited === 'off' ? f.limitedThresholdCurrent : f.thresholdCurrent,
    I_gpl: t.limited === 'off' ? f.limitedPlateauCurrent : f.plateauCurrent,
    V_tail: edges[t.edges].tail,
    V_head: edges[t.edges].head,
    V_pk: edges[t.edges].peak,
    a_pk: edges[t.edges].share,
    P_pk: edges[t.edges].power,
    P_alone: t.safeArea ? f.aloneEdgePower : undefined,
    P_soa: t.safeArea ? f.hotPulsePower : undefined,
    P_fw: t.edges === 'clamped inductive' ? f.freewheelLoss : undefined,
    E_av: !t.avalanche ? undefined : t.edges === 'clamped inductive' ? f.inductiveAvalancheEnergy : f.avalancheEnergy,
    E_hot: t.avalanche ? f.hotAvalancheEnergy : undefined,
    P_swmax: t.share ? f.allowedSwitchingLoss : undefined,
    rho: law[t.law].here,
    rho_top: law[t.law].top,
    I: currents[t.load].here,
    I_top: currents[t.load].top,
    R_hold: holding[t.holding],
    V_hold0: t.limited === 'on' || t.reset === 'follower' ? f.heldLevel : undefined,
    V_rest: t.limited === 'on' ? f.leakingOffLevel : undefined,
    V_base: t.reset === 'base' ? bases[t.resetBase] : t.reset === 'follower' ? followerBases[t.resetBase] : undefined,
    V_reset: {
      'floating gate': f.floatingGate,
      'held gate': f.heldGate,
      'pulled gate': f.pulledGate,
      follower: f.followedReset,
      base: undefined,
      'base pulled up': undefined,
    }[t.reset],
    I_Creset: t.reset === 'base pulled up' ? f.resetCollectorCurrent : undefined,
    V_thair: isHeld ? f.ambientThreshold : undefined,
    C_issn: isHeld ? f.totalInput : undefined,
    C_gdn: isHeld ? f.totalReverse : undefined,
    V_cpl: isHeld ? f.contactLevel : undefined,
    t_con: isHeld ? f.contactTime : undefined,
    Z_con: isHeld ? (t.heat === 'bursts' ? f.contactImpedance : f.steadyContactImpedance) : undefined,
    P_con: isHeld ? (t.load === 'current' ? f.heldContactPower : f.contactPower) : undefined,
    T_con: isHeld ? f.contactTemperature : undefined,
  }
}

/** Those that a topology has. */
const there = <T extends readonly unknown[]>(...formulas: T) =>
  formulas.filter((one): one is Exclude<T[number], undefined> => one !== undefined)

/** All formulas of a topology by stage; within a stage, and from one to the next, in the order of calculation. */
export function formulasOf(c: Chosen) {
  return {
    gate: [
      f.curveEnd,
      c.I_max,
      f.deviceCurrent,
      f.saggedRail,
      c.V_sup,
      f.driveLevel,
      c.R_ser,
      c.V_G,
      f.sourceLift,
      f.gateSourceVoltage,
      f.neededLevel,
      c.V_GShigh,
    ],
    drive: [c.R_gon, f.gateTimeConstant, ...there(c.I_pin, c.I_C, c.I_p, c.I_lim, c.D_p, c.P_p, c.V_off), c.R_goff],
    off: [
      f.hotThreshold,
      ...there(c.R_hold, c.V_hold0, c.V_rest, c.V_base, c.V_reset, c.I_Creset),
      ...there(c.V_thair, c.C_issn, c.C_gdn, c.V_cpl, c.t_con, c.Z_con, c.P_con, c.T_con),
    ],
    edges: [
      f.chargeToPlateau,
      f.switchingCharge,
      f.driveOverPlateau,
      c.I_gon,
      f.riseTime,
      f.chargeToThreshold,
      c.I_gdon,
      c.t_don,
      f.wholeOn,
      f.pullBelowPlateau,
      c.I_goff,
      f.fallTime,
      f.chargeAbovePlateau,
      c.I_gdoff,
      c.t_doff,
      f.longerEdge,
      c.I_gth,
      c.I_gpl,
      c.V_head,
      ...there(c.V_tail),
      c.V_pk,
      ...there(c.a_pk),
      c.P_pk,
      f.spikeTime,
      f.wholeOff,
      f.edgeFrequency,
    ],
    losses: [
      f.realDuty,
      f.edgeTime,
      c.P_edge,
      f.outputCapacitanceLoss,
      f.wiringLoss,
      f.switchingLoss,
      f.gatePower,
      f.coldResistance,
      ...there(c.R_thJA),
      f.onTime,
      c.Z_on,
      f.edgePulse,
      c.Z_edge,
      f.edgeRise,
    ],
    hot: [c.rho, f.hotResistance, c.I, f.realPulsedCurrent, f.realConductionLoss, f.totalLoss, f.pulsePower, f.ripple],
    limit: [
      c.rho_top,
      f.limitResistance,
      c.I_top,
      f.limitConductionLoss,
      f.limitLoss,
      f.limitPulsePower,
      f.limitRipple,
      f.limitTemperature,
      f.thermalSlack,
      ...there(c.P_swmax),
    ],
    surge: [f.wiringEnergy, ...there(c.P_fw, c.E_av, c.E_hot, c.P_alone, c.P_soa)],
  }
}
