import { type Margin, relativeSlack } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import { railsAsRead } from '../blocks/divider-at.js'
import { mainRail, railOf } from '../design/rails.js'
import { type Place, spanOf } from '../supply/place.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { Stage } from '../walk/stage.js'
import type { Walk } from '../walk/walk.js'
import type { FirstFailure } from './assessment.js'
import { fails } from './descend.js'
import type { RowFound } from './rows.js'

/** What gives way first, and from which charge downwards everything above it held. */
export interface Found {
  readonly first: FirstFailure
  /** The lowest charge above it at which everything held; 1 where even the full cells fail. */
  readonly heldDownTo: number
}

/** Whether a row only tells a fault from a reading: where it fails, what is read is still right. Pitfall D08. */
export const isDiagnosis = ({ catches }: Margin): boolean => catches.includes('D08')

/** A row at a place at which it doesn't hold. */
interface Failing {
  readonly found: RowFound
  readonly place: Place
}

/** How closely the charge of a first failure is looked for: a sixteenth of a walk of forty charges. */
const narrow = 1 / 640

/**
 * The first failure on the way from full to empty: the rows that hold least far down, then between the two charges of the walk
 * about it by halving. What held above it is counted, not where it failed: the safe side.
 */
export function firstOf(walk: Walk, rows: readonly RowFound[]): Found | null {
  const failing = rows.filter(({ descent }) => descent.failing.length > 0)
  if (failing.length === 0) return null
  const index = Math.min(...failing.map(({ descent }) => descent.held))
  let here = failing
    .filter(({ descent }) => descent.held === index)
    .flatMap((found): Failing[] => found.descent.failing.map((place) => ({ found, place })))
  if (index < 0) return { first: mostPressing(walk, here), heldDownTo: 1 }
  let [held, failed] = [walk.charges[index]!, walk.charges[index + 1]!]
  for (let halving = 0; held - failed > narrow && halving < 10; halving++) {
    const charge = (held + failed) / 2
    const between = here
      .map(({ found, place }) => ({ found, place: { ...place, charge } }))
      .filter(({ found, place }) => fails(walk.over(spanOf(place)).margin(found.stage, found.row.id)))
    if (between.length > 0) {
      failed = charge
      here = between
    } else {
      held = charge
    }
  }
  return { first: mostPressing(walk, here), heldDownTo: held }
}

/** Of all that fails at a charge the row that lacks most, relative to its limit. */
function mostPressing(walk: Walk, all: readonly Failing[]): FirstFailure {
  const held = all.map(({ found, place }) => {
    const { solved, margin } = { solved: walk.over(spanOf(place)).solved, margin: marginAt(walk, found, place) }
    return { found, place, solved, margin }
  })
  const { found, place, solved, margin } = held.reduce((a, b) =>
    relativeSlack(b.margin) < relativeSlack(a.margin) ? b : a,
  )
  const { id } = found.row
  const { block, state } = found.stage
  const together = new Set(all.map((one) => one.found.row.id).filter((one) => one !== id))
  return {
    id,
    block,
    state,
    margin,
    place,
    openCircuit: solved.source.openCircuit.nominal,
    ...railAtWorst(walk, solved, found.stage, margin),
    together: [...together],
  }
}

/** The main rail where a row is worst: at its lowest, or at its highest where too much of it is what fails. */
function railAtWorst(
  { design, firmware }: Walk,
  solved: SolvedSpan,
  { block, state }: Stage,
  { id, at, sense, unit }: Margin,
): Pick<FirstFailure, 'rail' | 'isLoaded'> {
  const { rest, sag } = solved.rails[mainRail]!
  const isLoaded = state !== 'load off'
  const converter = railOf(design, 'converter')
  const own = solved.rails[converter]!
  const asRead = block === 'divider' ? railsAsRead(design, solved, firmware, firmware.edges()?.off ?? 0) : undefined
  const measuringOf = (name: string) => asRead?.[name] ?? solved.rails[name]!.measuring
  const measuring = measuringOf(mainRail)
  const { V_rail, V_oc } = at
  const isHigh =
    V_rail !== undefined
      ? isUpper(V_rail, isLoaded ? own.sag : measuringOf(converter))
      : V_oc !== undefined
        ? isUpper(V_oc, solved.source.openCircuit)
        : sense === 'at most' && unit === 'V' && Object.keys(at).length === 0
  if (!isHigh) return { rail: isLoaded ? sag.lower : measuring.lower, isLoaded }
  // What is read is read under load; all else sees most of the rail as the load goes, or before it comes.
  if (!isLoaded) return { rail: measuring.upper, isLoaded }
  const isRead = V_rail !== undefined || id === 'supply-high'
  return isRead ? { rail: sag.upper, isLoaded } : { rail: rest.upper, isLoaded: false }
}

const isUpper = (x: number, { lower, upper }: Spread): boolean => upper > lower && x > (lower + upper) / 2

/** A block that refuses a place has no row there but that it does; what is in doubt is told by the whole. */
const marginAt = (walk: Walk, { stage, row }: RowFound, place: Place) =>
  walk.over(spanOf(place)).margin(stage, row.id) ?? row.margin
