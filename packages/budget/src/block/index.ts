export { assess, cautionsFor } from './assess.js'
export { type Block, blockOf, type HeldRows, type Report, type RowsAsked, type Setup } from './block.js'
export type { Change, Moved } from './changes/change.js'
export { type ChangeOptions, type Changes, changesOf } from './changes/index.js'
export { preferred, put, replaced, solved, tighter } from './changes/make.js'
export { changed } from './changes/path.js'
export type { ChangeSpec, ChangeStart, Remedies, Rung } from './changes/spec.js'
export { typedAlike } from './changes/value.js'
export { type ChooseOptions, type Choosing, type Chosen, choose, type Rejected } from './choose.js'
export { estimateLimit, estimateRow, type Seen } from './estimate.js'
export { type Further, type FurtherError, furtherErrors, furtherOf, furtherTexts } from './further.js'
export { clipText, holdRow } from './hold.js'
export { condition, noiseSpread } from './inputs.js'
export { type CheckOptions, type ReadCheckOptions, readCheckOptions, type Simulate } from './options.js'
export type {
  BlockRow,
  ErrorRow,
  InputSet,
  LimitRow,
  OwnRow,
  PlainRow,
  Reading,
  RowEstimate,
  RowText,
  Told,
} from './rows.js'
export { grid, type SweepPoint, sweep } from './sweep.js'
