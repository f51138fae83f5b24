import { type BlockRow, estimateRow, type RowEstimate } from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'

/** What a glance sees of a row; undefined where it sees nothing. */
export function glanceOf(row: BlockRow): RowEstimate | undefined {
  try {
    return estimateRow(row)
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}
