import type { Board, EmptyBranch } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { dampingRatio, inrush, inrushTime } from '../formulas/index.js'
import {
  type BiasedBranch,
  type Circuit,
  circuit,
  currentsOf,
  effort,
  meanSquares,
  type PlugIn,
  plugIn,
  plugInBiased,
  straightened,
} from '../waveform/inside.js'
import { heldAtInsertion, leastSlope } from './diode.js'
import { inParallel, together } from './parallel.js'
import { peakOf } from './peak.js'
import { periodOf } from './period.js'
import { circuitOf, highestReleased, lowestFromStart, type RailVoltages, steadyPwm, voltagesOf } from './rail.js'

/**
 * What margins ask of one board: numbers, each worked out at the first question and kept. The waveforms aren't: a check looks at a
 * thousand boards.
 */
export class RailReading {
  #rail: RailVoltages | undefined
  #ripple: readonly number[] | undefined
  #evenRipple: readonly number[] | undefined
  #peak = Number.NaN
  #inrush = Number.NaN
  #released: number | undefined

  constructor(
    private readonly read: ReadDecoupling,
    readonly board: Board,
  ) {}

  /** Lowest rail voltage; 0 where the load has no solution. */
  get V_min(): number {
    return this.#follow().lowest
  }

  /** Lowest voltage of the logic rail; that of the rail where there is none. */
  get V_logic(): number {
    return this.#follow().logic
  }

  /** Lowest rail voltage from the first period of PWM on; undefined without a steady state. */
  get lowestFromStart(): number | undefined {
    const c = this.#circuit()
    return lowestFromStart(this.read, this.board, c, this.#follow(c).lowest)
  }

  /** Highest rail voltage: at rest, when the load is released, and when the source is plugged onto empty capacitors. */
  get V_high(): number {
    return Math.max(this.#highest(), this.#peakOf())
  }

  /** The same where the plug-in can only creep to the source's voltage. */
  get highestCreeping(): number {
    return Math.max(this.#highest(), this.board.source.voltage)
  }

  /**
   * The same, in long steps where capacitances depend on their voltage: to a thousandth. Where the rail creeps to the source's voltage it
   * is a billionth below that for each time that it is as damped as it must be: a search must see which way leads to ringing.
   */
  get highestNearly(): number {
    if (Number.isNaN(this.#peak)) {
      const { source, empty } = this.board
      const peak = this.#peakOf(0.6)
      const x = { R_s: source.resistance, ESR: 0, L: source.inductance, C: together(empty) }
      const damping = Math.min(1e3, dampingRatio(x) ** 2)
      this.#peak = peak > source.voltage ? peak : source.voltage * (1 - 1e-9 * damping)
    }
    return Math.max(this.#highest(), this.#peak)
  }

  /** Highest source current when it is plugged onto empty capacitors. */
  get I_in(): number {
    return this.#plugged().inrush
  }

  /** The same to some per cent, at a tenth of the cost where capacitances depend on their voltage. */
  get inrushNearly(): number {
    if (Number.isNaN(this.#inrush)) this.#inrush = this.#nearly(1.5).inrush
    return this.#inrush
  }

  /**
   * How long that current takes to stay below a level for good. Where it never passes it, below 0 by the share that it stays away, of
   * `scale`: a search must see which way leads there.
   */
  timeAbove(level: number, scale: number): number {
    return timeOf(this.#plugged(), level, scale)
  }

  /** The same to some per cent. */
  timeAboveNearly(level: number, scale: number): number {
    return timeOf(this.#nearly(Math.max(0.1, this.#times(level))), level, scale)
  }

  /**
   * The same of the first order, without inductance: its formula goes on below 0 by itself.
   *
   * @param resistance - that of the time constant: one for all boards, or the time would both rise and fall with it
   */
  timeAboveWithout(level: number, resistance: number): number {
    const times = this.#times(level)
    const parts = straightened(this.#empty(), this.board.source.voltage, Math.max(0.1, times))
    return resistance * together(parts) * times
  }

  /** Time constants in which the current of a first-order circuit falls to a level. */
  #times(level: number): number {
    const { source } = this.board
    const I_in = inrush({ V_s: source.voltage, R_s: source.resistance, ESR_e: inParallel(this.#empty()) })
    return inrushTime({ tau_I: 1, I_in, I_trip: level })
  }

  /** Ripple current of all parts of each kind together, in steady PWM; empty where there is none. */
  get ripple(): readonly number[] {
    this.#ripple ??= this.#rippleOf((c) => {
      const { pwm } = steadyPwm(this.read, this.board, c)
      return pwm && meanSquares(c, pwm)
    })
    return this.#ripple ?? []
  }

  /** The same with what is drawn behind a diode drawn evenly, not in its pulses. */
  get rippleNearly(): readonly number[] {
    this.#evenRipple ??= this.#rippleOf((c) => periodOf(this.board, c)?.squares)
    return this.#evenRipple ?? []
  }

  /** @param follow - mean squares of a period of steady PWM, where there is one */
  #rippleOf(follow: (c: Circuit) => readonly number[] | null | undefined): readonly number[] | undefined {
    if (effort.isSpent) {
      effort.isOpen = true
      return undefined
    }
    const c = this.#circuit()
    effort.spend(100 + 40 * c.branches.length ** 2)
    const squares = follow(c)
    return squares ? currentsOf(c, squares) : []
  }

  /**
   * The highest of the plug-in with each series resistance that has no range at its least or at its most: beside another kind it damps
   * best in between. Behind a diode the hold-up capacitor clamps too.
   */
  #peakOf(share?: number): number {
    const { empty, source } = this.board
    if (effort.isSpent) {
      effort.isOpen = true
      return source.voltage
    }
    const held = this.read.logicRail?.behind === 'diode' ? heldAtInsertion(this.board) : []
    const sets: readonly (readonly (BiasedBranch & Partial<EmptyBranch>)[])[] =
      held.length > 0 ? held.map((one) => [...empty, one]) : [this.#empty()]
    return Math.max(...sets.map((branches) => this.#peakWith(branches, share)))
  }

  #peakWith(branches: readonly (BiasedBranch & Partial<EmptyBranch>)[], share?: number): number {
    const open = branches.filter(({ most = 0, resistance }) => most > resistance)
    let peak = 0
    for (let way = 0; way < (branches.length > 1 ? 2 ** open.length : 1); way++) {
      const tried = branches.map((one) => {
        const bit = open.indexOf(one)
        return bit >= 0 && (way >> bit) & 1 ? { ...one, resistance: one.most! } : one
      })
      peak = Math.max(peak, peakOf(this.board.source, tried, share))
    }
    return peak
  }

  /** At rest, when the load is released, and as one that stays on goes in the end. */
  #highest(): number {
    this.#released ??= highestReleased(this.read, this.board, this.#circuit())
    return Math.max(this.#follow().highest, this.#released)
  }

  #plugged(): PlugIn {
    return plugInBiased(this.board.source, this.#empty())
  }

  #nearly(times: number): PlugIn {
    const { source } = this.board
    return plugIn(circuit(source, straightened(this.#empty(), source.voltage, times), 0))
  }

  /** What charges from empty, and draws the most: behind a diode with none of its drop. */
  #empty(): readonly BiasedBranch[] {
    const { empty, logic } = this.board
    const { behind } = this.read.logicRail ?? {}
    if (behind === 'resistor') return [...empty, { ...logic, inductance: 0 }]
    if (behind !== 'diode') return empty
    return [...empty, { capacitance: logic.capacitance, resistance: leastSlope, inductance: 0 }]
  }

  #circuit(): Circuit {
    return circuitOf(this.read, this.board)
  }

  #follow(c?: Circuit) {
    if (this.#rail === undefined && effort.isSpent) {
      // No rail is lower than this one.
      effort.isOpen = true
      return { lowest: 0, logic: 0, highest: this.board.source.voltage }
    }
    if (this.#rail === undefined) {
      this.#rail = voltagesOf(this.read, this.board, c ?? this.#circuit())
    }
    return this.#rail
  }
}

function timeOf(plugged: PlugIn, level: number, scale: number): number {
  if (effort.isSpent) {
    effort.isOpen = true
    return 0
  }
  const time = plugged.timeAbove(level)
  return time > 0 ? time : scale * Math.min(0, plugged.inrush / level - 1)
}
