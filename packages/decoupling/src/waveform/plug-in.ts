import type { Circuit } from './circuit.js'
import { Course, type Placed } from './course.js'
import { drive } from './drive.js'
import { lastBelow, lowestUnder } from './lowest.js'
import { sourceDrain } from './piece.js'
import { extremeOf } from './response.js'

/** What happens when the source is connected to empty capacitors. */
export interface PlugIn {
  /** Highest rail voltage. */
  readonly peak: number
  /** Highest source current. */
  readonly inrush: number
  /** Time after which the source current stays below a level for good; 0 where it never passes it. */
  readonly timeAbove: (level: number) => number
}

/** Connects the source of a circuit, nothing switched on, to its empty capacitors. Each answer is worked out when it is asked for. */
export function plugIn(c: Circuit): PlugIn {
  const n = c.branches.length
  const empty = { rail: 0, source: 0, voltages: new Array<number>(n).fill(0), currents: new Array<number>(n).fill(0) }
  const course = new Course(c, empty)
  course.add(drive(c, empty, 0, { current: 0, slope: 0 }, Number.POSITIVE_INFINITY), 'off')
  return new Plugged(course.pieces)
}

class Plugged implements PlugIn {
  constructor(private readonly pieces: readonly Placed[]) {}

  get peak(): number {
    return extremeOf(this.pieces, -1)!.value
  }

  get inrush(): number {
    let least = 0
    for (const { piece } of this.pieces) least = lowestUnder(sourceDrain(piece), piece.duration, least)?.value ?? least
    return -least
  }

  timeAbove(level: number): number {
    for (let k = this.pieces.length - 1; k >= 0; k--) {
      const { piece, start } = this.pieces[k]!
      const last = lastBelow(sourceDrain(piece), -level, piece.duration, 1e-9 * level)
      if (last !== null) return start + last
    }
    return 0
  }
}
