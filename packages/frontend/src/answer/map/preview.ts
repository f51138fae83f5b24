import type { BlockRow } from '@ohmward/budget'
import { between, type Spread } from '@ohmward/quantity'
import { readDesign } from '../../design/read.js'
import type { Design } from '../../design/record.js'
import type { Span } from '../../supply/place.js'
import { type SolvedSpan, solveOver } from '../../supply/solve.js'
import { HeldSpan } from '../../walk/held-span.js'
import type { Stage } from '../../walk/stage.js'
import { type WalkOptions, walkOf } from '../../walk/walk.js'
import { glanceOf } from '../glance.js'
import { later, now, type RunOptions } from '../run.js'
import { type Columns, columnsOf, type RowNamed, shareOf } from './columns.js'
import { type Seen, straightRows } from './straight.js'

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
  const spanAt = (column: number): Span => {
    const charge = walk.charges[column]!
    return { charge: { from: charge, to: charge }, ...walk.around }
  }
  const at = (column: number) => walk.over(spanAt(column))
  const named = new Map<string, RowNamed>()
  const stagesOf = new Map<Stage, Set<string>>(walk.stages.map((stage) => [stage, new Set()]))
  const switches = new Map<number, Spread>()
  const columns = yield* straightRows(walk.charges.length, (column, wanted) => {
    // Rows of the supply go by the load's current alone: what the line leaves out could carry one past its limit.
    const isSolved =
      wanted === undefined || [...wanted.ids].some((id) => id === ofRail || named.get(id)?.block === 'supply')
    const held = isSolved
      ? at(column)
      : new HeldSpan(solveOver(walk.design, spanAt(column), switchBetween(switches, column)), walk.stages)
    if (isSolved) switches.set(column, held.solved.switch)
    const seen = new Map<string, Seen | null>()
    if (isSolved) seen.set(ofRail, railSeen(held.solved))
    for (const stage of walk.stages) {
      const own = stagesOf.get(stage)!
      if (wanted !== undefined && own.size > 0 && ![...own].some((id) => wanted.ids.has(id))) continue
      for (const { id, row } of held.ready(stage)) {
        const { name, unit, sense } = row
        const { block, state } = stage
        if (!named.has(id)) named.set(id, { id, block, state, name, unit, sense })
        own.add(id)
        if (wanted === undefined || wanted.ids.has(id) || !wanted.known.has(id)) seen.set(id, rowSeen(row))
      }
      held.forget(stage)
    }
    return seen
  })
  const spans = walk.charges.map((_, column) => {
    const { source, rest } = at(column).solved
    const [lower, upper] = columns[column]!.get(ofRail)!.values as [number, number]
    return { source, rest, rail: { lower: lower * rest.lower, upper: upper * rest.upper } }
  })
  const rows = [...named.values()].map((row) => ({ ...row, cells: columns.map((one) => cellOf(one.get(row.id))) }))
  return {
    ...columnsOf(walk.charges, spans),
    rows: rows.sort((a, b) => shortFrom(a) - shortFrom(b) || least(a) - least(b)),
  }
}

/**
 * The switch where the rail runs straight: on the line between the nearest columns at which it was solved. It is a hundredth of the
 * loop, and what of it isn't straight a part of that; its own rows don't go by it.
 */
function switchBetween(switches: ReadonlyMap<number, Spread>, column: number): Spread {
  const known = [...switches.keys()]
  const [from, to] = [
    Math.max(...known.filter((one) => one < column)),
    Math.min(...known.filter((one) => one > column)),
  ]
  const [a, b] = [switches.get(from)!, switches.get(to)!]
  const share = (column - from) / (to - from)
  const on = (end: 'lower' | 'nominal' | 'upper') => a[end] + (b[end] - a[end]) * share
  return between(on('lower'), on('upper'), on('nominal'))
}

/** The rail under load stands among the rows, as a share of what it is at rest: that runs straighter than volts. */
const ofRail = 'rail'

/** A rail is shown in volts: ten times as near to the line as a row. */
const railSeen = ({ rest, rail }: SolvedSpan): Seen => ({
  slack: 1,
  values: [rail.lower / rest.lower, rail.upper / rest.upper],
  scale: 0.1,
})

/** Nothing where no glance sees it. */
function rowSeen(row: BlockRow): Seen | null {
  const seen = glanceOf(row)
  if (seen === undefined) return null
  const { nominal, worst, slack, limit } = seen
  const scale = Math.max(Math.abs(limit), Math.abs(worst), Math.abs(nominal))
  return { slack, values: [nominal, worst, limit], scale }
}

function cellOf(seen: Seen | null | undefined): PreviewCell | null {
  if (!seen) return null
  const { slack } = seen
  const [nominal, worst, limit] = seen.values as [number, number, number]
  const relative = shareOf({ slack, limit, worst })
  return { estimate: slack >= 0 ? 'spare' : 'short', nominal, worst, slack, relative }
}

const shortFrom = ({ cells }: PreviewRow): number => {
  const index = cells.findIndex((cell) => cell?.estimate === 'short')
  return index < 0 ? cells.length : index
}

const least = ({ cells }: PreviewRow): number => Math.min(...cells.map((cell) => cell?.relative ?? Infinity))

/**
 * A first look at a design while {@link mapDesign} takes its time: every row over the discharge, with an estimate of its worst case at the
 * ends of temperature and age, the parts moved one after the other. Where a row runs straight from one charge to another, those between
 * are put on the line: nearly always within a hundredth of its scale, on the same side of the limit. It gives no verdict: where it leaves
 * room, a row may still fail.
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
