import type { Circuit } from './circuit.js'
import { Course, type Placed } from './course.js'
import { drive } from './drive.js'
import { lastBelow, lowestUnder } from './lowest.js'
import { sourceCurrent } from './piece.js'
import { extremeOf } from './response.js'
import { negative, type Signal } from './signal.js'

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
  #currents: readonly Signal[] | undefined

  constructor(private readonly pieces: readonly Placed[]) {}

  get peak(): number {
    return extremeOf(this.pieces, -1)!.value
  }

  get inrush(): number {
    const { pieces } = this
    let least = 0
    for (let k = 0; k < pieces.length; k++) {
      least = lowestUnder(this.#drawn(k), pieces[k]!.piece.duration, least)?.value ?? least
    }
    return -least
  }

  timeAbove(level: number): number {
    const { pieces } = this
    for (let k = pieces.length - 1; k >= 0; k--) {
      const { piece, start } = pieces[k]!
      const last = lastBelow(this.#drawn(k), -level, piece.duration, 1e-9 * level)
      if (last !== null) return start + last
    }
    return 0
  }

  /** Of piece k, the source's current with the opposite sign. */
  #drawn(k: number): Signal {
    this.#currents ??= this.pieces.map(({ piece }) => negative(sourceCurrent(piece)))
    return this.#currents[k]!
  }
}
