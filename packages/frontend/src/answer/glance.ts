import { type BlockRow, estimateRow, type RowEstimate } from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'
import { type Place, spanOf } from '../supply/place.js'
import type { Stage } from '../walk/stage.js'
import type { Walk } from '../walk/walk.js'

/** What a glance sees of a row; undefined where it sees nothing. */
export function glanceOf(row: BlockRow): RowEstimate | undefined {
  try {
    return estimateRow(row)
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** A row of a stage at a place, not held; undefined where it has none of that name there. */
export const rowAt = (walk: Walk, stage: Stage, id: string, place: Place): BlockRow | undefined =>
  walk
    .over(spanOf(place))
    .ready(stage)
    .find((one) => one.id === id)?.row

/** What a glance sees of it there. */
export function glanceAt(walk: Walk, stage: Stage, id: string, place: Place): RowEstimate | undefined {
  const row = rowAt(walk, stage, id, place)
  return row && glanceOf(row)
}
