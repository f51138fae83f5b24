export type { DesignAssessment, FirstFailure, RowOver, Standby } from './answer/assessment.js'
export { checkDesign } from './answer/check.js'
export { exampleDesign } from './design/example.js'
export { designSchema, parseDesign, readDesign, writeDesign } from './design/read.js'
export {
  type Design,
  type DesignDecoupling,
  type DesignHall,
  type DesignMosfet,
  designRecord,
  designVersion,
  type ReadDesign,
} from './design/record.js'
export {
  type BlockAt,
  decouplingAt,
  dividerAt,
  type Firmware,
  hallAt,
  mosfetAt,
} from './walk/choices.js'
export type { BlockName, RowAt } from './walk/hold.js'
export type { Place, State } from './walk/place.js'
export { type SolvedPlace, solveAt } from './walk/solve.js'
export { type PointAt, type Walk, type WalkOptions, walkOf } from './walk/walk.js'
