import type { BlockRow } from '@ohmward/budget'
import { readDesign } from '../design/read.js'
import type { Design } from '../design/record.js'
import type { SolvedSpan } from '../walk/solve.js'
import { type WalkOptions, walkOf } from '../walk/walk.js'
import { type Columns, columnsOf, type RowNamed, shareOf } from './columns.js'
import { glanceOf } from './glance.js'
import { later, now, type RunOptions } from './run.js'

/**
 * A row at one charge as a glance sees it, at every temperature and age there: `spare` where the estimate leaves room to the limit, `short`
 * where it doesn't. Neither is a verdict: only the walk says whether a row holds.
 */
export interface PreviewCell {
  readonly estimate: 'spare' | 'short'
  /** Nominal parts, and the estimate of the worst case; both in the row's unit. */
  readonly nominal: number
  readonly worst: number
  readonly slack: number
  /** Slack as a share of the limit: what cells of different rows are compared by. */
  readonly relative: number
}

/** A row over the discharge, as a glance sees it. */
export interface PreviewRow extends RowNamed {
  /** At each charge; `null` where a glance sees nothing, or the block refuses what the supply leaves it. */
  readonly cells: readonly (PreviewCell | null)[]
}

/** Rows against cell voltage, as a glance sees them: no verdict, and no walk. */
export interface DesignPreview extends Columns {
  /** Rows that seem short at the highest charge come first. */
  readonly rows: readonly PreviewRow[]
}

function* previewing(given: Design, options: WalkOptions): Generator<number, DesignPreview> {
  const walk = walkOf(readDesign(given), { charges: 12, ...options })
  const rows = new Map<string, PreviewRow & { readonly cells: (PreviewCell | null)[] }>()
  const spans: SolvedSpan[] = []
  const { length } = walk.charges
  for (const [column, charge] of walk.charges.entries()) {
    const held = walk.over({ charge: { from: charge, to: charge }, ...walk.around })
    spans.push(held.solved)
    for (const stage of walk.stages) {
      for (const { id, row } of held.ready(stage)) {
        const { name, unit, sense } = row
        const { block, state } = stage
        const known = rows.get(id) ?? { id, block, state, name, unit, sense, cells: none(length) }
        rows.set(id, known)
        known.cells[column] = cellOf(row)
      }
      held.forget(stage)
    }
    yield (column + 1) / length
  }
  return {
    ...columnsOf(walk.charges, spans),
    rows: [...rows.values()].sort((a, b) => shortFrom(a) - shortFrom(b) || least(a) - least(b)),
  }
}

const none = (length: number): null[] => Array.from({ length }, () => null)

/** Nothing where no glance sees it. */
function cellOf(row: BlockRow): PreviewCell | null {
  const seen = glanceOf(row)
  if (seen === undefined) return null
  const { nominal, worst, slack } = seen
  return { estimate: slack >= 0 ? 'spare' : 'short', nominal, worst, slack, relative: shareOf(seen) }
}

const shortFrom = ({ cells }: PreviewRow): number => {
  const index = cells.findIndex((cell) => cell?.estimate === 'short')
  return index < 0 ? cells.length : index
}

const least = ({ cells }: PreviewRow): number => Math.min(...cells.map((cell) => cell?.relative ?? Infinity))

/**
 * A first look at a design while {@link mapDesign} takes its time: every row over the discharge, with an estimate of its worst case at the
 * ends of temperature and age, the parts moved one after the other. It gives no verdict: where it leaves room, a row may still fail.
 *
 * @returns the same rows at the same charges as the map, each with nominal parts and with the estimate
 * @throws InputError naming the first field that isn't allowed
 */
export const previewDesign = (given: Design, options: WalkOptions = {}): DesignPreview =>
  now(previewing(given, options))

/** The same in steps, to be followed and stopped. @throws InputError, and the signal's reason (as rejections) */
export const previewDesignLater = (given: Design, options: WalkOptions & RunOptions = {}): Promise<DesignPreview> => {
  const { onProgress, signal, ...walk } = options
  return later(previewing(given, walk), { ...(onProgress && { onProgress }), ...(signal && { signal }) })
}
