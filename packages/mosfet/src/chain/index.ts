import type { AnyFormula } from '@ohmward/budget'
import { type Balance, type Junction, solveJunction } from '../junction.js'
import type { SwitchInputs, Topology } from '../topology.js'
import { chosenFor, formulasOf } from './formulas-of.js'
import {
  balanceOf,
  type DriveValues,
  driveStage,
  type GateValues,
  gateStage,
  type HotValues,
  hotStage,
  type LimitValues,
  type LossValues,
  limitStage,
  lossStage,
  type SurgeValues,
  surgeStage,
  type TimeValues,
  timeStage,
} from './stages.js'

export type { DriveValues, GateValues, HotValues, LimitValues, LossValues, SurgeValues, TimeValues } from './stages.js'

/** What the chain computes before any junction temperature is known. */
export type ColdValues = GateValues & DriveValues & TimeValues & LossValues & SurgeValues & LimitValues

/** A switch: its formulas in the order of calculation, and its chain from source, load and parts to temperature. */
export interface Switch {
  readonly topology: Topology
  readonly formulas: readonly AnyFormula[]
  /** From the source to the gate. */
  gate(x: SwitchInputs): GateValues
  /** What charges and discharges the gate. */
  drive(x: SwitchInputs): DriveValues
  /** The edges of the drain. */
  times(x: SwitchInputs): TimeValues
  /** What the edges cost. */
  losses(x: SwitchInputs): LossValues
  /** What an edge does to the transistor. */
  surge(x: SwitchInputs): SurgeValues
  /** The heat with the junction at its limit. */
  limit(x: SwitchInputs): LimitValues
  /** All of these. */
  cold(x: SwitchInputs): ColdValues
  /** Everything at a junction temperature in °C; `T_j` in it is what that temperature's loss makes of it. */
  hot(x: SwitchInputs, cold: ColdValues, celsius: number): HotValues
  /** Heat balance of one device. */
  balance(x: SwitchInputs): Balance
  /** Junction temperature, solved; or runaway. */
  junction(x: SwitchInputs): Junction
}

/** Prepares a topology: which formulas hold is decided once. */
export function switchOf(topology: Topology): Switch {
  const chosen = chosenFor(topology)
  const gate = (x: SwitchInputs) => gateStage(x, chosen)
  const drive = (x: SwitchInputs) => driveStage(x, gate(x), chosen)
  const timesOf = (x: SwitchInputs, atGate: GateValues) => timeStage(x, atGate, driveStage(x, atGate, chosen), chosen)
  const lossesOf = (x: SwitchInputs, atGate: GateValues) => lossStage(x, atGate, timesOf(x, atGate), chosen)
  const limit = (x: SwitchInputs): LimitValues => {
    const atGate = gate(x)
    return limitStage(x, atGate.V_GS, lossesOf(x, atGate).P_sw, topology, chosen)
  }
  const cold = (x: SwitchInputs): ColdValues => {
    const atGate = gate(x)
    const atDrive = driveStage(x, atGate, chosen)
    const times = timeStage(x, atGate, atDrive, chosen)
    const losses = lossStage(x, atGate, times, chosen)
    const surge = surgeStage(x, atGate, times, chosen)
    const atLimit = limitStage(x, atGate.V_GS, losses.P_sw, topology, chosen)
    return { ...atGate, ...atDrive, ...times, ...losses, ...surge, ...atLimit }
  }
  const balance = (x: SwitchInputs) => {
    const atGate = gate(x)
    const { P_sw } = lossesOf(x, atGate)
    return balanceOf(x, limitStage(x, atGate.V_GS, P_sw, topology, chosen).R_on, P_sw, topology)
  }
  return {
    topology,
    formulas: formulasOf(chosen),
    gate,
    drive,
    times: (x) => timesOf(x, gate(x)),
    losses: (x) => lossesOf(x, gate(x)),
    surge: (x) => {
      const atGate = gate(x)
      return surgeStage(x, atGate, timesOf(x, atGate), chosen)
    },
    limit,
    cold,
    hot: (x, { R_on, P_sw }, celsius) => hotStage(x, R_on, P_sw, celsius, topology, chosen),
    balance,
    junction: (x) => solveJunction(balance(x), topology.law),
  }
}

/**
 * The inputs that a computed symbol depends on, through the topology's formulas. The line of the on-resistance follows
 * the gate voltage where there is more than one.
 */
export function inputsBehind({ formulas, topology }: Switch, symbols: readonly string[]): Set<string> {
  const bySymbol = new Map(formulas.map((formula) => [formula.symbol, formula]))
  const found = new Set<string>()
  const follow = (symbol: string) => {
    if (found.has(symbol)) return
    found.add(symbol)
    const formula = bySymbol.get(symbol)
    if (formula !== undefined) for (const input of Object.keys(formula.inputs)) follow(input)
    if ((symbol === 'R_typ' || symbol === 'R_gua') && topology.onResistance.length > 1) follow('V_GS')
  }
  symbols.forEach(follow)
  return found
}
