export {
  checkMosfet,
  type MosfetAssessment,
  type MosfetBudgets,
  mosfet,
  mosfetChanges,
  sweepMosfet,
} from './block.js'
export { type MosfetChoice, type MosfetConditions, type ReadMosfet, readMosfet, wiringFields } from './choice.js'
export { type Bursts, burstImpedance, type ImpedancePoint, impedanceAt } from './datasheet/impedance.js'
export { readLaw } from './datasheet/points.js'
export { type SafePulse, safePulsePower } from './datasheet/pulse.js'
export { guaranteedLine, type OnResistancePoint, typicalBetween } from './datasheet/table.js'
export * from './formulas/index.js'
export { type FactorPoint, type Law, type LawInput, type LawText, lawOf } from './junction/law.js'
export type { CurvePoint, JunctionReport } from './junction/report.js'
export {
  currentAt,
  type HeldLoss,
  type RunawayDistance,
  resistanceAt,
  runawayDistance,
} from './junction/runaway.js'
export { type Balance, type Junction, lossAt, siliconEnd, solveJunction } from './junction/solve.js'
export { type Drive, driveFields } from './parts/drive.js'
export { exampleChoice, exampleConditions, exampleDrives, exampleTransistors } from './parts/examples.js'
export {
  type CopperPoint,
  type ReadTransistor,
  readTransistor,
  type Transistor,
  transistorFields,
} from './parts/transistor.js'
export { largestOnResistance } from './sizing/largest-resistance.js'
export type { MosfetRequirement, SizeOptions } from './sizing/requirement.js'
export { type MosfetSizing, type RejectedMosfet, type SizedMosfet, sizeMosfet } from './sizing/size.js'
