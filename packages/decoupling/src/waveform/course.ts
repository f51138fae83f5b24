import { type Circuit, restState } from './circuit.js'
import type { Run } from './drive.js'
import type { Piece, State } from './piece.js'

/** A piece with its place in time. */
export interface Placed {
  readonly piece: Piece
  readonly start: number
  /** Whether the load is being switched on or on, or off again. */
  readonly phase: 'rise' | 'on' | 'fall' | 'off'
}

/** A circuit on its way through one run after the other. */
export class Course {
  readonly pieces: Placed[] = []
  /** When the last run ends. */
  clock = 0
  /** Where it ends; after a run without end, where that began. */
  state: State

  constructor(
    private readonly circuit: Circuit,
    from: State = restState(circuit),
  ) {
    this.state = from
  }

  add({ pieces, end }: Run, phase: Placed['phase']): void {
    for (let k = 0; k < pieces.length; k++) {
      const piece = pieces[k]!
      this.pieces.push({ piece, start: this.clock, phase })
      this.clock += piece.duration
    }
    if (end !== null) this.state = end
  }

  /** Current of the switched load at the end of the last run. */
  get current(): number {
    const { load, duration, solved } = this.pieces[this.pieces.length - 1]!.piece
    const own = load.current + duration * (load.slope + duration * (load.curve ?? 0))
    return own + solved.network.conductance * this.state.rail - this.circuit.idle
  }
}
