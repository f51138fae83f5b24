import { between, exact, type Spread } from '@ohmward/quantity'
import type { ReadCell } from '@ohmward/supply'
import type { Ends, Span } from '../supply/place.js'
import type { SolvedSpan } from '../supply/solve.js'
import { type Board, type Corners, cornersOf, lackingAt, openAt, reboundAt } from './corners.js'
import { type Curves, chargesOf, curvesOf, highest } from './curves.js'

/** What of a walk a threshold is looked for on. */
export interface Range extends Board {
  readonly charge: Ends
  readonly solve: (span: Span) => SolvedSpan
}

/** A threshold of the main rail as it acts, its error and the noise of a reading in it. */
export interface Threshold {
  /** V */
  readonly acts: Spread
  readonly reads: 'at rest' | 'under load'
  /** Share of what the load takes from the cells' voltage that is still to come back when they are read at rest, at most. */
  readonly lacking: number
}

/** A threshold as a single reading with its noise acts, V. */
export const noisy = ({ lower, nominal, upper }: Spread, noise: number): Spread =>
  between(lower - noise, upper + noise, nominal)

/** Where a threshold lands on the discharge, over all boards. */
export interface Landing {
  /** State of charge at which it acts, from the first board to the last; 0 where it never does. */
  readonly charge: Spread
  /** Open-circuit voltage of all cells in series then, when all of it has come back, V. */
  readonly rest: Spread
  /** How far the main rail comes back once it has acted, V, at most. */
  readonly rebound: number
  readonly acts: Spread
  readonly reads: 'at rest' | 'under load'
  /** All that it landed on. */
  readonly on: {
    readonly cell: ReadCell
    readonly curves: Curves
    readonly corners: Corners
    /** Charges from full to empty. */
    readonly all: readonly number[]
  }
}

/** Rounds in which load and switch are solved where it lands; each can only narrow it. */
const rounds = 3

/** Where a threshold lands, charge by charge: of each charge with its own resistance, and with the cells that may lie there. `null` for a port. */
export function landingOf(range: Range, threshold: Threshold): Landing | null {
  const { charge: whole, around, solve } = range
  const { source: cell } = range.design.supply
  if (cell.kind !== 'cell') return null
  const { from: full, to: empty } = whole
  const inside = (one: number) => Math.min(full, Math.max(empty, one))
  let found: Landing | null = null
  for (let round = 0; round < rounds; round++) {
    const charge = found ? { from: inside(found.charge.upper), to: inside(found.charge.lower) } : whole
    const corners = cornersOf(range, cell, solve({ charge, ...around }), threshold.lacking)
    found = landed(cell, corners, threshold)
    if (threshold.reads === 'at rest' && threshold.lacking === 0) break
  }
  return found
}

function landed(cell: ReadCell, corners: Corners, { acts, reads }: Threshold): Landing {
  const curves = curvesOf(cell)
  const all = chargesOf(cell)
  const { weak, nominal, strong, rebounding: late } = corners
  const soonest = (q: number) => openAt(weak, q, acts.upper, reads)
  const usual = (q: number) => openAt(nominal, q, acts.nominal, reads)
  const latest = (q: number) => openAt(strong, q, acts.lower, reads)
  // The first board has low cells and a weak rail, the last one high cells and a strong one.
  const first = highest(all, (q) => curves.lower(q) <= soonest(q))
  const last = highest(all, (q) => curves.upper(q) <= latest(q))
  const middle = highest(all, (q) => curves.nominal(q) <= usual(q))
  const crossings = [
    first,
    last,
    highest(all, (q) => curves.upper(q) <= soonest(q)),
    highest(all, (q) => curves.upper(q) <= openAt(weak, q, acts.lower, reads)),
    ...[acts.upper, acts.lower].map((at) => highest(all, (q) => curves.upper(q) <= openAt(late, q, at, reads))),
    highest(all, (q) => curves.lower(q) <= latest(q)),
  ]
  const charges = [...crossings, ...all].filter((q) => q <= first && q >= last)
  const top = curves.upper(1)
  // What is empty goes on to fall off the end of its curve.
  const lowest = (q: number) => Math.min(top, q === 0 ? latest(q) : Math.max(latest(q), curves.lower(q)))
  const rest = {
    lower: Math.min(...charges.map(lowest)),
    upper: Math.max(...charges.map((q) => Math.min(soonest(q), curves.upper(q)))),
  }
  const rebound = Math.max(0, ...charges.map((q) => reboundOf({ corners, curves }, acts, reads, q)))
  const on = { cell, curves, corners, all }
  return {
    charge: spread(last, middle, first),
    rest: spread(rest.lower, Math.min(usual(middle), curves.nominal(1)), Math.max(rest.lower, rest.upper)),
    rebound,
    acts,
    reads,
    on,
  }
}

/** How far the rail of the weakest board that may act at a charge comes back, V: as high as it acts, and as high as its cells are there. */
function reboundOf(
  { corners: { weak, rebounding: late }, curves }: { readonly corners: Corners; readonly curves: Curves },
  acts: Spread,
  reads: Threshold['reads'],
  charge: number,
): number {
  const open = Math.min(openAt(late, charge, acts.upper, reads), curves.upper(charge))
  // What is read of them is a straight line over their voltage.
  const none = openAt(late, charge, 0, reads)
  const rail = (open - none) / (openAt(late, charge, 1, reads) - none)
  // So low it acts on no weak board but one that begins there, and on others rebounds less than where it does.
  if (charge < 1 && rail < acts.lower * (1 - 1e-9)) return 0
  return reads === 'at rest' ? lackingAt(weak, charge, open) : reboundAt(weak, charge, rail)
}

function spread(lower: number, nominal: number, upper: number): Spread {
  return lower === upper ? exact(lower) : between(lower, upper, Math.min(Math.max(nominal, lower), upper))
}
