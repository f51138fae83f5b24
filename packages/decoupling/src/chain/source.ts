import { chain, type PlaceOf } from '@ohmward/budget'
import {
  agedResistance,
  diodeDrop,
  emissionVoltage,
  peakOfLogic,
  restCurrent,
  restVoltage,
  sourceResistance,
  sourceVoltage,
  supplyResistance,
  wornShare,
} from '../formulas/index.js'

const rail = [restCurrent, restVoltage, peakOfLogic, diodeDrop, emissionVoltage] as const
const more = ['L', 'I_lim', 'P_want', 'R_iso', 'r_d', 'C_h', 'I_step', 'R_L', 'P_L'] as const

/** From a cell and its power path to the rail at rest. */
export const cellChain = /*#__PURE__*/ (() =>
  chain([wornShare, agedResistance, sourceResistance, sourceVoltage, ...rail], more))()

/** From a supply that holds its current at a limit to the rail at rest. */
export const supplyChain = /*#__PURE__*/ (() =>
  chain([wornShare, supplyResistance, sourceVoltage, ...rail], [...more, 'R_prot']))()

type CellPlace = PlaceOf<typeof cellChain.formulas, (typeof more)[number]>
type SupplyPlace = PlaceOf<typeof supplyChain.formulas, (typeof more)[number] | 'R_prot'>

/** What both sources leave: the rail at rest, the logic rail's diode and current. */
export type RailPlace = Pick<SupplyPlace, keyof SupplyPlace & keyof CellPlace>

/** Computes the rail at rest from a cell, in place. */
export function followCell(y: CellPlace): void {
  y.s_worn = wornShare(y)
  y.k_aged = agedResistance(y)
  y.R_s = sourceResistance(y)
  y.V_s = sourceVoltage(y)
  followRail(y)
}

/** Computes the rail at rest from a supply, in place. */
export function followSupply(y: SupplyPlace): void {
  y.s_worn = wornShare(y)
  y.R_s = supplyResistance(y)
  y.V_s = sourceVoltage(y)
  followRail(y)
}

function followRail(y: RailPlace): void {
  y.I_q = restCurrent(y)
  y.V_rest = restVoltage(y)
  y.I_top = peakOfLogic(y)
  y.V_fT = diodeDrop(y)
  y.V_e = emissionVoltage(y)
}
