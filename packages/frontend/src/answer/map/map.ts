import type { Verdict } from '@ohmward/budget'
import { readDesign } from '../../design/read.js'
import type { Design } from '../../design/record.js'
import type { SolvedSpan } from '../../supply/solve.js'
import { type WalkOptions, walkOf } from '../../walk/walk.js'
import { later, now, type RunOptions } from '../run.js'
import { type Columns, columnsOf, type RowNamed, shareOf } from './columns.js'

/** A row at one charge, at its worst over every temperature and age there. */
export interface MapCell {
  readonly verdict: Verdict
  /** Both in the row's unit. */
  readonly worst: number
  readonly slack: number
  /** Slack as a share of the limit: what cells of different rows are compared by. */
  readonly relative: number
}

/** A row over the discharge. */
export interface MapRow extends RowNamed {
  /** Limit at each charge, and how it is held there; `null` where the block refuses what the supply leaves it. */
  readonly limits: readonly (number | null)[]
  readonly cells: readonly (MapCell | null)[]
}

/** Rows against cell voltage. */
export interface DesignMap extends Columns {
  /** Rows that fail at the highest charge come first. */
  readonly rows: readonly MapRow[]
}

function* mapping(given: Design, options: WalkOptions): Generator<number, DesignMap> {
  const walk = walkOf(readDesign(given), { charges: 12, ...options })
  const cells = new Map<
    string,
    { -readonly [K in keyof MapRow]: MapRow[K] } & { cells: (MapCell | null)[]; limits: (number | null)[] }
  >()
  const spans: SolvedSpan[] = []
  const { length } = walk.charges
  for (const [column, charge] of walk.charges.entries()) {
    const held = walk.over({ charge: { from: charge, to: charge }, ...walk.around })
    spans.push(held.solved)
    for (const { id, block, state, margin } of held.all()) {
      const { name, unit, sense, verdict, worst, slack, limit } = margin
      const row = cells.get(id) ?? { id, block, state, name, unit, sense, limits: none(length), cells: none(length) }
      row.cells[column] = { verdict, worst, slack, relative: shareOf(margin) }
      row.limits[column] = limit
      cells.set(id, row)
    }
    yield (column + 1) / length
  }
  return {
    ...columnsOf(walk.charges, spans),
    rows: [...cells.values()].sort((a, b) => failsFrom(a) - failsFrom(b) || least(a) - least(b)),
  }
}

const none = (length: number): null[] => Array.from({ length }, () => null)

const failsFrom = ({ cells }: MapRow): number => {
  const index = cells.findIndex((cell) => cell !== null && cell.verdict !== 'holds')
  return index < 0 ? cells.length : index
}

const least = ({ cells }: MapRow): number => Math.min(...cells.map((cell) => cell?.relative ?? Infinity))

/**
 * Every row over the discharge: at each charge at its worst over the parts and over every temperature and age.
 *
 * @throws InputError naming the first field that isn't allowed
 */
export const mapDesign = (given: Design, options: WalkOptions = {}): DesignMap => now(mapping(given, options))

/** The same in steps, to be followed and stopped. */
export const mapDesignLater = (given: Design, options: WalkOptions & RunOptions = {}): Promise<DesignMap> => {
  const { onProgress, signal, ...walk } = options
  return later(mapping(given, walk), { ...(onProgress && { onProgress }), ...(signal && { signal }) })
}
