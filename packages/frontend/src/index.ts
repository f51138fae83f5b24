export type { DesignAssessment, FirstFailure, RowOver, WholeBlock } from './answer/assessment.js'
export { checkDesign, checkDesignLater } from './answer/check.js'
export { firstBoard, firstBoardCsv, type TestPoint } from './answer/first-board.js'
export { type Levels, levelsAt, type PathLevel } from './answer/levels.js'
export { type DesignMap, type MapCell, type MapRow, mapDesign, mapDesignLater } from './answer/map/map.js'
export {
  type DesignPreview,
  type PreviewCell,
  type PreviewRow,
  previewDesign,
  previewDesignLater,
} from './answer/map/preview.js'
export type { Alarm, AlarmAt, MonitorAnswer } from './answer/monitor.js'
export type { PowerAnswer } from './answer/power/power.js'
export type { RunOptions } from './answer/run.js'
export type { DrawerDrain, Standby, SwitchedOff } from './answer/standby.js'
export type { BlockAt } from './blocks/block-at.js'
export { decouplingAt } from './blocks/decoupling-at.js'
export { dividerAt } from './blocks/divider-at.js'
export type { Firmware } from './blocks/firmware.js'
export { hallAt } from './blocks/hall-at.js'
export { mosfetAt } from './blocks/mosfet-at.js'
export { type BoardOptions, type BoardSimulation, simulateBoards, simulateBoardsLater } from './boards/index.js'
export {
  type DesignChange,
  type DesignChangeOptions,
  type DesignChanges,
  designChanges,
  withChange,
} from './changes/index.js'
export { exampleDesign, exampleDesigns } from './design/example.js'
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
export type { Ends, Place, Span, State } from './supply/place.js'
export type { RailState, Rails } from './supply/rails.js'
export { type SolvedPlace, type SolvedSpan, solveAt, solveOver } from './supply/solve.js'
export type { RowAt } from './walk/held-span.js'
export type { BlockName } from './walk/stage.js'
export { type PointAt, type Walk, type WalkOptions, walkOf } from './walk/walk.js'
