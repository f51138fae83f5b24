export {
  type AtWork,
  checkMosfet,
  type MosfetAssessment,
  type MosfetBudgets,
  mosfet,
  mosfetAtWork,
  mosfetChanges,
  sweepMosfet,
} from './block.js'
export { remedies as mosfetRemedies } from './changes/index.js'
export { choiceRecord, conditionsRecord, type MosfetChoice, type MosfetConditions, type ReadMosfet } from './choice.js'
export type { Bursts, ImpedancePoint } from './datasheet/impedance.js'
export type { LawInput } from './datasheet/read-law.js'
export {
  burstImpedance,
  currentAt,
  impedanceAt,
  lawOf,
  lossAt,
  runawayDistance,
  solveJunction,
} from './junction/given.js'
export type { Law, LawText } from './junction/law.js'
export type { CurvePoint, JunctionReport } from './junction/report.js'
export type { HeldLoss, RunawayDistance } from './junction/runaway.js'
export { type Balance, type Junction, siliconEnd } from './junction/solve.js'
export type { Drive } from './parts/drive.js'
export { driveFields } from './parts/drive-fields.js'
export { exampleChoice, exampleConditions, exampleDrives, exampleTransistors } from './parts/examples.js'
export type { Transistor } from './parts/transistor.js'
export { transistorFields } from './parts/transistor-fields.js'
export { wiringFields } from './parts/wiring.js'
export { largestOnResistance } from './sizing/largest-resistance.js'
export type { MosfetRequirement, SizeOptions } from './sizing/requirement.js'
export { type MosfetSizing, type RejectedMosfet, type SizedMosfet, sizeMosfet } from './sizing/size.js'
