import type { Board } from './board.js'
import { circuitOf, highestOfRail, railOf } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import { type Circuit, plugIn, rippleCurrents } from './waveform/index.js'

/**
 * What margins ask of one board: numbers, each worked out at the first question and kept. The waveforms aren't: a check looks at a
 * thousand boards.
 */
export class Findings {
  #rail: { readonly lowest: number; readonly logic: number; readonly highest: number } | undefined
  #ripple: readonly number[] | undefined
  #peak = Number.NaN
  #inrush = Number.NaN

  constructor(
    private readonly read: ReadDecoupling,
    readonly board: Board,
  ) {}

  /** Lowest rail voltage; 0 where the load has no solution. */
  get lowest(): number {
    return this.#follow().lowest
  }

  /** Lowest voltage of the logic rail; that of the rail where there is none. */
  get logic(): number {
    return this.#follow().logic
  }

  /** Highest rail voltage: at rest, when the load is released, and when the source is plugged onto empty capacitors. */
  get highest(): number {
    if (this.#rail === undefined || Number.isNaN(this.#peak)) {
      const c = this.#circuit()
      this.#peak = plugIn(c).peak
      this.#follow(c)
    }
    return Math.max(this.#follow().highest, this.#peak)
  }

  /** Highest source current when it is plugged onto empty capacitors. */
  get inrush(): number {
    if (Number.isNaN(this.#inrush)) this.#inrush = plugIn(this.#circuit()).inrush
    return this.#inrush
  }

  /** How long that current takes to stay below a level for good. */
  timeAbove(level: number): number {
    return plugIn(this.#circuit()).timeAbove(level)
  }

  /** Ripple current of all parts of each kind together, in steady PWM; empty where there is none. */
  get ripple(): readonly number[] {
    if (this.#ripple === undefined) {
      const { circuit, pwm } = railOf(this.read, this.board)
      this.#ripple = pwm ? rippleCurrents(circuit, pwm) : []
    }
    return this.#ripple
  }

  #circuit(): Circuit {
    return circuitOf(this.read, this.board)
  }

  #follow(c?: Circuit) {
    if (this.#rail === undefined) {
      const answer = railOf(this.read, this.board, c ?? this.#circuit())
      this.#rail = { lowest: answer.lowest, logic: answer.logic, highest: highestOfRail(answer) }
    }
    return this.#rail
  }
}
