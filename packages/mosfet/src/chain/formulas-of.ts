import type { AnyFormula } from '@ohmward/budget'
import * as f from '../formulas/index.js'
import type { Topology } from '../topology.js'

/** The formulas that a topology picks among several for the same symbol. */
export type Chosen = ReturnType<typeof chosenFor>

/** Picks them once, so that the chain asks nothing while it runs. */
export function chosenFor({ load, edges, supply, charge, pull, off, limited, base, offLevel, law }: Topology) {
  const held = load === 'current'
  const inductive = edges === 'clamped inductive'
  const own = supply === 'regulated'
  const divided = pull === 'gate'
  const passive = divided ? f.passivePathOff : f.passivePathOffThroughGate
  const driven = divided ? f.dividedPathOff : f.wholePathOff
  const level = divided ? f.dividedLevel : pull === 'drive' ? f.driveSideLevel : f.wholeLevel
  const collector = base === 'shared' ? f.sharedCollectorCurrent : f.collectorCurrent
  const rho = { linear: f.linearFactor, power: f.powerFactor, points: undefined }[law.text.kind]
  return {
    I_max: (held ? f.heldLargestCurrent : f.largestCurrent) as AnyFormula,
    V_sup: (own ? f.regulatedSupply : f.driveSupply) as AnyFormula,
    R_ser: (charge === 'pull' ? f.pullSeriesResistance : f.seriesResistance) as AnyFormula,
    V_G: level as AnyFormula,
    V_GShigh: (own ? f.highestRegulatedGateSource : f.highestGateSource) as AnyFormula,
    R_gon: (divided ? f.dividedPathOn : f.wholePathOn) as AnyFormula,
    R_goff: (off === 'pull' ? passive : driven) as AnyFormula,
    V_off: offLevel === 'fixed' ? undefined : f.pinOffLevel,
    I_C: (limited === 'neither' ? undefined : collector) as AnyFormula | undefined,
    I_lim: limited === 'neither' ? undefined : f.currentForGate,
    I_gon: (limited === 'on' ? f.limitedGateCurrentOn : f.gateCurrentOn) as AnyFormula,
    I_goff: (limited === 'off' ? f.limitedGateCurrentOff : f.gateCurrentOff) as AnyFormula,
    P_edge: inductive ? f.inductiveEdgeLoss : f.resistiveEdgeLoss,
    V_pk: (inductive ? f.inductiveTurnOffPeak : f.turnOffPeak) as AnyFormula,
    P_pk: inductive ? f.inductiveEdgePeakPower : f.edgePeakPower,
    rho: rho as AnyFormula | undefined,
    I: (held ? f.heldCurrent : f.loadCurrent) as AnyFormula,
    I_top: (held ? f.heldLimitCurrent : f.limitCurrent) as AnyFormula,
  }
}

/** All formulas of a topology in the order of calculation. */
export function formulasOf(c: Chosen): AnyFormula[] {
  const gate = [
    c.I_max,
    f.saggedRail,
    c.V_sup,
    f.driveLevel,
    c.R_ser,
    c.V_G,
    f.sourceLift,
    f.gateSourceVoltage,
    c.V_GShigh,
  ]
  const conduction = [f.coldResistance, c.rho, f.hotResistance, c.I, f.pulsedCurrent, f.conductionLoss]
  const on = [f.chargeToPlateau, f.switchingCharge, f.driveOverPlateau, c.R_gon, c.I_C, c.I_lim, c.I_gon, f.riseTime]
  const off = [c.V_off, f.pullBelowPlateau, c.R_goff, c.I_goff, f.fallTime]
  const losses = [f.edgeFrequency, f.edgeTime, c.P_edge, f.outputCapacitanceLoss, f.wiringLoss, f.switchingLoss]
  const heat = [f.totalLoss, f.junctionTemperature, f.gatePower]
  const limit = [f.limitResistance, c.I_top, f.limitConductionLoss, f.limitLoss, f.thermalSlack]
  const surge = [c.V_pk, f.wiringEnergy, c.P_pk]
  return [...gate, ...conduction, ...on, ...off, ...losses, ...heat, ...limit, ...surge].filter(
    (one) => one !== undefined,
  )
}
