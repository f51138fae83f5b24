export {
  type ColdValues,
  type DriveValues,
  type GateValues,
  type HotValues,
  inputsBehind,
  type LimitValues,
  type LossValues,
  type SurgeValues,
  type Switch,
  switchOf,
  type TimeValues,
} from './chain/index.js'
export { type CheckOptions, checkMosfet, type MosfetAssessment, type MosfetBudgets } from './check.js'
export { type MosfetChoice, type MosfetConditions, type ReadMosfet, readMosfet, wiringFields } from './choice.js'
export { type ReadDrive, readDrive } from './drive.js'
export { type Drive, driveFields } from './drive-fields.js'
export { exampleChoice, exampleConditions, exampleDrives, exampleTransistors } from './examples.js'
export * from './formulas/index.js'
export { type Bursts, burstImpedance, type ImpedancePoint, impedanceAt } from './impedance.js'
export { inputsOf, type MosfetInputs, topologyOf } from './inputs.js'
export { type Balance, type Junction, lossAt, siliconEnd, solveJunction } from './junction.js'
export { largestOnResistance } from './largest-resistance.js'
export { type FactorPoint, type Law, type LawInput, type LawText, lawOf } from './law.js'
export { type CopperPoint, type ReadTransistor, readTransistor, type Transistor, transistorFields } from './parts.js'
export { readLaw } from './points.js'
export { type SafePulse, safePulsePower } from './pulse.js'
export { type CurvePoint, type JunctionReport, reportOf } from './report.js'
export { currentAt, type HeldLoss, type RunawayDistance, resistanceAt, runawayDistance } from './runaway.js'
export { type MosfetRequirement, type MosfetSizing, type RejectedMosfet, type SizedMosfet, sizeMosfet } from './size.js'
export { guaranteedLine, type OnResistancePoint, typicalBetween } from './table.js'
export type { SwitchInputs, Topology } from './topology.js'
