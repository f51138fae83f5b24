import type { BlockRow } from '@ohmward/budget'
import type { InputError } from '@ohmward/quantity'

/** A row that is ready to be held. */
export interface ReadyRow {
  /** Names it in the whole design: `divider/headroom`, with the state where a block is held in two. */
  readonly id: string
  /** The row as its block has it. */
  readonly row: BlockRow
  /** Ids of rows whose failure brings this one's, named as in the whole design. */
  readonly causes?: readonly string[]
  /** What holding the rows of its block has cost so far, in steps; absent where a block counts none. */
  readonly spent?: () => number
  /** Why, where it stands for a block that refuses what the supply leaves it. */
  readonly refused?: InputError
}
