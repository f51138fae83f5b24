import { type BlockRow, estimateRow, holdRow, type Margin, type RowEstimate, relativeSlack } from '@ohmward/budget'
import { extremesOf } from '../answer/descend.js'
import type { ReadyRow } from '../rows/ready-row.js'
import { isPlace, type Place, type Span, spanOf } from '../supply/place.js'
import type { Stage } from '../walk/stage.js'
import type { Walk } from '../walk/walk.js'

/** How often a range of charges is halved: to a sixteenth, about as finely as a check walks. */
const halvings = 4

/**
 * A row over a span that is held by itself at its places where it does not hold over all of them at once: a cold load in warm air is none
 * of them. One that gives way at any place is as it was over the whole span.
 */
export function byPlace(walk: Walk, span: Span, stage: Stage, { id, row }: ReadyRow): BlockRow {
  if (isPlace(span)) return { ...row, id }
  const rowOver = (part: Span) =>
    walk
      .over(part)
      .ready(stage)
      .find((one) => one.id === id)?.row
  const { name, unit, sense, catches, causes } = row
  const text = { id, name, unit, sense, catches, ...(causes && { causes }) }
  const estimate = estimateBy(walk, span, row, (place) => rowOver(spanOf(place)))
  return {
    kind: 'own',
    ...text,
    ...(row.kind === 'error' && { isError: true }),
    ...(estimate && { estimate }),
    hold: (rule) => {
      const all = { ...holdRow(row, rule).margin, id }
      if (all.verdict === 'holds') return all
      const marginOver = (part: Span): Margin | undefined => {
        const found = rowOver(part)
        return found && holdRow(found, rule).margin
      }
      const parts = placesOf(walk, span).every((place) => holds(marginOver(spanOf(place))))
        ? inParts(walk, span, marginOver)
        : undefined
      return parts === undefined ? all : { ...parts, id }
    },
  }
}

const holds = (margin: Margin | undefined): boolean => margin?.verdict === 'holds'

/** The ends of the charge at every temperature and age, the weakest supply and the strongest first. */
function placesOf(walk: Walk, { charge }: Span): Place[] {
  const first = extremesOf(walk)
  const others = walk.states.filter(
    (state) => !first.some((one) => one.celsius === state.celsius && one.age === state.age),
  )
  return [...first, ...others].flatMap((state) =>
    [...new Set([charge.to, charge.from])].map((one) => ({ ...state, charge: one })),
  )
}

/** The worst of a row over ranges of charge at every temperature and age, each short enough to hold; undefined where a place gives way. */
function inParts(walk: Walk, span: Span, marginOver: (part: Span) => Margin | undefined): Margin | undefined {
  let worst: Margin | undefined
  const isHeld = (from: number, to: number, state: Omit<Place, 'charge'>, left: number): boolean => {
    const here = spanOf({ ...state, charge: from })
    const margin = marginOver({ ...here, charge: { from, to } })
    if (margin === undefined) return false
    if (holds(margin)) {
      if (worst === undefined || relativeSlack(margin) < relativeSlack(worst)) worst = margin
      return true
    }
    // What is in doubt counts as failing, as in a check.
    if (left === 0 || from === to) return false
    const middle = (from + to) / 2
    const between = marginOver(spanOf({ ...state, charge: middle }))
    if (between === undefined || !holds(between)) return false
    if (worst === undefined || relativeSlack(between) < relativeSlack(worst)) worst = between
    return isHeld(from, middle, state, left - 1) && isHeld(middle, to, state, left - 1)
  }
  const { from, to } = span.charge
  return walk.states.every((state) => isHeld(from, to, state, halvings)) ? worst : undefined
}

/** What a row may come to over its span, or at the ends of it by themselves; undefined where it has no glance of its own. */
function estimateBy(
  walk: Walk,
  span: Span,
  row: BlockRow,
  rowAt: (place: Place) => BlockRow | undefined,
): (() => RowEstimate) | undefined {
  if (row.kind === 'own' && row.estimate === undefined) return undefined
  return () => {
    const all = estimateRow(row)
    if (all.slack >= 0) return all
    let worst: RowEstimate | undefined
    for (const place of placesOf(walk, span)) {
      const found = rowAt(place)
      if (found === undefined) return all
      const here = estimateRow(found)
      if (here.slack < 0) return all
      if (worst === undefined || here.slack < worst.slack) worst = here
    }
    return worst ?? all
  }
}
