import { type Margin, plainMargin } from '@ohmward/budget'
import type { RowOver, WholeBlock } from '../assessment.js'

/** A row of the whole as it is told, and what it covers. */
export interface Told extends Pick<Margin, 'id' | 'name' | 'unit' | 'sense'> {
  readonly catches?: readonly string[]
  /** No row without a worst case, or where nothing is asked of it. */
  readonly worst: number | null | undefined
  readonly limit: number | null | undefined
  readonly nominal?: number
  readonly where: string
  /** Why it is not sure, where that is so. */
  readonly unsure?: string | undefined
  /** Whether nothing is known of the value: it is put at its limit then. */
  readonly isUnknown?: boolean
}

/** A row of the whole, at no single place. */
export const wholeRow = (block: RowOver['block'], id: string, margin: Margin, where: string): RowOver => ({
  ...{ id: `${block}/${id}`, block, state: 'load on', margin, place: null, where, heldDownTo: null },
})

/** Rows of a part of the whole, those that it has. */
export const toldRows = (block: WholeBlock, told: readonly Told[]): RowOver[] =>
  told.flatMap(({ worst, limit, nominal, where, unsure, isUnknown, catches = [], ...text }) => {
    if (worst == null || limit == null) return []
    const margin = plainMargin({ ...text, catches }, worst, limit, nominal ?? worst)
    const answer: Margin =
      unsure === undefined
        ? margin
        : { ...margin, verdict: 'not sure', reason: unsure, ...(isUnknown && { isUnknown }) }
    return [wholeRow(block, text.id, answer, where)]
  })
