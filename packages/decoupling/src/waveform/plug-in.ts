import type { Circuit } from './circuit.js'
import { drive } from './drive.js'
import { lastBelow, lowest } from './lowest.js'
import { type State, sourceCurrent } from './piece.js'
import { extremeOf } from './response.js'
import { negative } from './signal.js'

/** What happens when the source is connected to empty capacitors. */
export interface PlugIn {
  /** Highest rail voltage. */
  readonly peak: number
  /** Highest source current. */
  readonly inrush: number
  /** Time after which the source current stays below a level for good; 0 where it never passes it. */
  readonly timeAbove: (level: number) => number
}

/** Connects the source of a circuit, nothing switched on, to its empty capacitors. */
export function plugIn(c: Circuit): PlugIn {
  const empty: State = { source: 0, voltages: c.branches.map(() => 0), currents: c.branches.map(() => 0) }
  const { pieces } = drive(c, empty, 0, { current: 0, slope: 0 }, Number.POSITIVE_INFINITY)
  const placed = pieces.map((piece, i) => ({
    piece,
    start: pieces.slice(0, i).reduce((sum, before) => sum + before.duration, 0),
    phase: 'off' as const,
  }))
  const peak = extremeOf(placed, -1)!.value
  const currents = pieces.map(sourceCurrent)
  const inrush = Math.max(...pieces.map((piece, i) => -lowest(negative(currents[i]!), piece.duration).value))
  const timeAbove = (level: number): number => {
    for (let k = pieces.length - 1; k >= 0; k--) {
      const last = lastBelow(negative(currents[k]!), -level, pieces[k]!.duration, 1e-9 * level)
      if (last !== null) return placed[k]!.start + last
    }
    return 0
  }
  return { peak, inrush, timeAbove }
}
