import { causesFirst, holdRow, type Margin, relativeSlack } from '@ohmward/budget'
import { type Ends, type Place, spanOf } from '../supply/place.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { Stage } from '../walk/stage.js'
import type { Walk } from '../walk/walk.js'
import type { RowOver } from './assessment.js'
import { type Descent, descend, downTo, extremesOf, reachOf } from './descend.js'
import { glanceAt } from './glance.js'

/** A row over the walk, and what became of it on the way down. */
export interface RowFound {
  readonly row: RowOver
  readonly stage: Stage
  readonly descent: Descent
  /** Ids of rows whose failure brings this one's. */
  readonly causes?: readonly string[]
}

const seriousness = { fails: 0, 'not sure': 1, holds: 2 } as const

/** A verdict that is worse comes before a slack that is less: what isn't sure may have slack to spare. */
export const bySeriousness = (a: Margin, b: Margin): number =>
  seriousness[a.verdict] - seriousness[b.verdict] || relativeSlack(a) - relativeSlack(b)

/**
 * Rows as they press, what brings another's failure about before it. Of two rows that give way on the way down, only the one
 * that does so no later is the cause.
 */
export function inOrder(found: readonly RowFound[], whole: readonly RowOver[]): RowOver[] {
  const sorted = [...found.map(({ row }) => row), ...whole].sort((a, b) => bySeriousness(a.margin, b.margin))
  const causes = new Map(found.map(({ row, causes }) => [row, causes]))
  // One that fails on full cells gives way before all others.
  const downTo = ({ heldDownTo }: RowOver): number => heldDownTo ?? Number.POSITIVE_INFINITY
  return causesFirst(
    sorted,
    ({ margin }) => margin.verdict,
    (cause, of) => causes.get(of)?.includes(cause.id) === true && downTo(cause) >= downTo(of),
  )
}

/** Every row over the walk, one after the other: failing ones first, those with the least slack relative to their limit before the others. */
export function* rowsOver(walk: Walk): Generator<number, RowFound[]> {
  const found: RowFound[] = []
  const last = walk.charges.length - 1
  for (const [i, stage] of walk.stages.entries()) {
    const reach = reachOf(walk, stage)
    const rows = reach < 0 ? [] : walk.over(downTo(walk, reach)).ready(stage)
    for (const [n, { id, causes }] of rows.entries()) {
      found.push({ ...rowOver(walk, stage, id, reach), ...(causes && { causes }) })
      yield (i + (n + 1) / (rows.length + 1)) / walk.stages.length
    }
    if (reach < last) found.push(refusedOver(walk, stage, reach))
    walk.forget(stage)
    yield (i + 1) / walk.stages.length
  }
  return found.sort((a, b) => bySeriousness(a.row.margin, b.row.margin))
}

function rowOver(walk: Walk, stage: Stage, id: string, reach: number): RowFound {
  const descent = descend(walk, stage, id, reach)
  const held = walk.over(downTo(walk, reach))
  const corners = cornersOf(walk, reach)
  const over = descent.failing.length === 0 ? held.margin(stage, id)! : undefined
  if (over?.verdict === 'holds') {
    const place = placeOf(walk, held.solved, over, corners) ?? seemsTightest(walk, stage, id, corners)
    return { row: overOf(walk, stage, id, over, place, descent), stage, descent }
  }
  // What gives way on the way down holds on full cells.
  const tightest =
    descent.held < 0 || descent.failing.length === 0
      ? corners
      : corners.filter(({ charge }) => charge !== walk.charges[0])
  const places = [...tightest, ...descent.failing]
  const at = places
    .flatMap((place) => {
      const margin = walk.over(spanOf(place)).margin(stage, id)
      return margin === undefined ? [] : [{ place, margin }]
    })
    .sort((a, b) => bySeriousness(a.margin, b.margin))[0]
  // What doesn't hold is told with the value of its own place, unless all together fail and no place surely does.
  const isSure = at !== undefined && (over !== undefined || at.margin.verdict === 'fails')
  const all = isSure ? at.margin : (over ?? held.margin(stage, id)!)
  const margin = at !== undefined && at.margin.verdict === all.verdict ? at.margin : all
  return { row: overOf(walk, stage, id, margin, at?.place ?? places[0]!, descent), stage, descent }
}

function refusedOver(walk: Walk, stage: Stage, reach: number): RowFound {
  const last = walk.charges.length - 1
  const [row] = walk.over(downTo(walk, last)).ready(stage)
  const failing = walk.states.map((state) => ({ ...state, charge: walk.charges[reach + 1]! }))
  const descent = { held: reach, failing }
  const { id } = row!
  return { row: overOf(walk, stage, id, holdRow(row!.row).margin, failing[0]!, descent), stage, descent }
}

const overOf = (walk: Walk, { block, state }: Stage, id: string, margin: Margin, place: Place, { held }: Descent) => ({
  id,
  block,
  state,
  margin,
  place,
  heldDownTo: held < 0 ? null : walk.charges[held]!,
})

/**
 * The corner at which a row has its worst case over all of them, where that case names the voltage at rest, the temperature and the age:
 * nothing has to be held again to say where. Undefined where it doesn't.
 */
function placeOf(
  { design, around }: Walk,
  { source }: SolvedSpan,
  { at }: Margin,
  corners: readonly Place[],
): Place | undefined {
  const { V_oc, T_a, Y_age } = at
  if (V_oc === undefined || T_a === undefined || Y_age === undefined) return undefined
  const { lower, upper } = source.openCircuit
  const volts = shareOf(V_oc, { from: lower, to: upper })
  const warm = shareOf(T_a, around.celsius)
  const full = corners[0]!.charge
  const off = ({ charge, celsius, age }: Place) =>
    Math.abs(volts - (charge === full ? 1 : 0)) +
    Math.abs(warm - shareOf(celsius, around.celsius)) +
    Math.abs(Y_age / design.lifeYears - age)
  return [...corners].sort((a, b) => off(a) - off(b))[0]
}

/** The corner at which a row has the least slack by its estimates: of one that holds, the worst of all at once is told, and a glance says where. */
function seemsTightest(walk: Walk, stage: Stage, id: string, corners: readonly Place[]): Place {
  const slackAt = (place: Place): number => {
    const seen = glanceAt(walk, stage, id, place)
    return seen === undefined ? Number.POSITIVE_INFINITY : relativeSlack(seen)
  }
  const slacks = corners.map(slackAt)
  return corners[slacks.indexOf(Math.min(...slacks))]!
}

/** Where a value lies between two ends, from 0 to 1; 1 where they are one. */
const shareOf = (value: number, { from, to }: Ends): number => (to === from ? 1 : (value - from) / (to - from))

/** Full and empty, each weakest and strongest: where most rows are tightest. */
function cornersOf(walk: Walk, reach: number): Place[] {
  const { charges } = walk
  const ends = reach === 0 ? [charges[0]!] : [charges[0]!, charges[reach]!]
  return ends.flatMap((charge) => extremesOf(walk).map((state) => ({ ...state, charge })))
}
