import type { Board } from '../tools/board.js'
import type { RailNumber } from './rail.js'
import { type Solved, solve } from './solve.js'
import type { Used, UseValue } from './use.js'
import type { Value } from './whole.js'

/** Values of a board and of its use. */
export type B = Board<Value> & Board<UseValue>

const day = 86_400
const month = (365.25 / 12) * day

/** A board in use: what its monitor stops, how long its cells last, what its load takes in pulses. Kirchhoff, and charge counted. */
export class BoardInUse {
  private readonly used: Used
  /** The same whose cells nothing stops. */
  private readonly free: Used

  constructor(used: Used) {
    this.used = used
    const { source } = used.plain
    this.free = { ...used, plain: { ...used.plain, source: source.kind === 'cell' ? { ...source, least: 0 } : source } }
  }

  private loop(b: B): number {
    return b['divider reference'] + b['divider switchResistance'] + b['divider lead'] + this.used.divider.plain.middle
  }

  /** Everything at a charge, cells as low as they lie there. */
  at(b: B, charge = b.charge): Solved {
    return solve(this.free, { ...b, charge }, this.loop(b))
  }

  /** What is read of the main rail, by the code of the reference against the converter's rail, and of the divided one. */
  read(b: B, main: number, own: number): number {
    const { isCalibrated, isDivided, bits, internal } = this.used.use.watch!
    if (isCalibrated) return main * (1 + b.calibrated)
    const scale = this.used.divider.plain.ownReference ? b.scale : own
    const code = (volts: number, counts: number) => (volts / scale) * 2 ** bits * (1 + b.readGain) + counts
    if (!isDivided) return (internal * 2 ** bits) / code(b.internal, b.readCounts)
    const { upper, lower } = this.used.useBox
    const nominal = lower[1] / (lower[1] + upper[1])
    const ohms = (b.upper * b.lower) / (b.upper + b.lower)
    const pin = (main * b.lower) / (b.upper + b.lower) - b.pinLeak * ohms
    // Both codes gain alike.
    const ratio = code(pin, b.pinCounts) / code(b.internal, b.readCounts)
    return (ratio * internal) / nominal
  }

  /** The main rail as the monitor has it, and what it reads of it. */
  private watched(b: B, charge: number, underLoad: boolean): { main: number; shown: number; s: Solved } {
    const s = this.at(b, charge)
    // At rest the cells still lack some of what the load's pulses took in them.
    const cells = s.source - s.path[0]!.ohms - s.path[1]!.ohms - s.path[2]!.ohms
    const main = underLoad ? s.sag : s.rest - b.lacks * (this.used.use.duty * s.current + s.draw) * cells
    const own = s.rails[underLoad ? 'sag' : 'rest'][this.used.plain.lives.converter]!
    return { main, shown: this.read(b, main, own), s }
  }

  /** Charge and rail at which a threshold acts on this board; the cells are empty before where there is none. */
  acts(b: B, threshold: number, { underLoad = this.used.use.watch!.underLoad, noise = b.stopNoise } = {}) {
    let [above, below] = [1, 0]
    const isBelow = (charge: number) => this.watched(b, charge, underLoad).shown + noise < threshold
    if (isBelow(1)) return { charge: 1, ...this.watched(b, 1, underLoad), leaps: false }
    if (!isBelow(0)) return { charge: 0, ...this.watched(b, 0, underLoad), leaps: false }
    for (let halving = 0; halving < 34; halving++) {
      const middle = (above + below) / 2
      if (isBelow(middle)) below = middle
      else above = middle
    }
    const at = this.watched(b, below, underLoad)
    // Where a transistor comes to another line of its sheet the rail leaps, over the threshold as well.
    const leaps = Math.abs(at.shown - this.watched(b, above, underLoad).shown) > 1e-4
    return { charge: below, ...at, leaps }
  }

  stop(b: B) {
    const { watch } = this.used.use
    return this.acts(b, watch!.alarms.find(([name]) => name === 'stop')![1])
  }

  /** Charge at which one of its cells rests at a voltage, 0 where it never does. */
  chargeAt(b: B, volts: number): number {
    const { inSeries } = this.cells
    let [above, below] = [1, 0]
    const open = (charge: number) => this.at(b, charge).open + b.drop
    if (open(0) > volts * inSeries) return 0
    for (let halving = 0; halving < 34; halving++) {
      const middle = (above + below) / 2
      if (open(middle) < volts * inSeries) below = middle
      else above = middle
    }
    return below
  }

  private get cells() {
    const { source } = this.used.plain
    if (source.kind !== 'cell') throw new Error('a port has no cells')
    return source
  }

  /** Charge at which this board's use ends: its stop, or the lowest voltage of its cells. */
  end(b: B): number {
    const own = this.chargeAt(b, this.used.use.lowest)
    return this.used.use.watch ? Math.max(own, this.stop(b).charge) : own
  }

  coulombs(b: B): number {
    return b.capacity * (1 - (1 - b.capacityLeft) * b.life)
  }

  /** Days in the drawer between two charges. */
  days(b: B, from: number, to: number): number {
    const steps = 12
    let seconds = 0
    for (let i = 0; i < steps; i++) {
      const charge = from + ((to - from) * (i + 0.5)) / steps
      const volts = this.at(b, charge).open + b.drop
      const own = b.rail1Own + b.rail2Own
      const divided = this.used.use.watch?.isDivided ? this.intoDivider(b, volts) : 0
      const amperes = b.asleep + volts / b.leak + own + divided + (this.coulombs(b) * b.selfDischarge) / month
      seconds += (this.coulombs(b) * (from - to)) / steps / amperes
    }
    return Math.max(0, seconds) / day
  }

  /** A regulator stays on in the drawer: its rail holds the clamp of the pin where the two resistors alone come higher. */
  private intoDivider(b: B, volts: number): number {
    const pin = (volts * b.lower) / (b.lower + b.upper)
    const { lives, rails, source2 } = this.used.plain
    const at = (n: number): number =>
      n === 0
        ? volts
        : Math.min(
            at(n === 2 ? source2 : 0),
            rails[n as RailNumber].kind === 'regulator' ? b[`rail${n as RailNumber}Set`] : volts,
          )
    const clamp = at(lives.converter) + 0.3
    return pin > clamp ? (volts - clamp) / b.upper : volts / (b.upper + b.lower)
  }

  /**
   * Mean current and power of the load while a pulse lasts, its capacitors at the rail: in the steady state, or so far towards the
   * first after a rest.
   */
  pulse(b: B, duty: number, charge = b.charge, begun = 0) {
    const s = this.at(b, charge)
    const { source, load, way, rest } = s
    const behind = load + way
    if (duty === 1)
      return { current: s.current, power: s.current ** 2 * load, s, comesTo: s.current, first: 0, time: 1 }
    const parallel = (source * behind) / (source + behind)
    const low = (rest * behind) / (source + behind)
    const [on, off] = [(parallel + b.series) * b.farads, (source + b.series) * b.farads]
    const [onTime, offTime] = [duty / this.used.use.frequency, (1 - duty) / this.used.use.frequency]
    const [falls, rises] = [Math.exp(-onTime / on), Math.exp(-offTime / off)]
    // At the end of a pulse u stands at low + (top - low) falls, and a pause later at the top again.
    const bottom = (low * (1 - falls) + rest * (1 - rises) * falls) / (1 - falls * rises)
    const top = (1 - begun) * (rest + (bottom - rest) * rises) + begun * rest
    const share = parallel / (parallel + b.series)
    const first = (top - low) * share
    const mean = low + (first * on * (1 - falls)) / onTime
    const square = low ** 2 + (2 * low * first * on * (1 - falls) + (first ** 2 * on * (1 - falls ** 2)) / 2) / onTime
    // A port gives no more than its limit at its voltage; how it limits within a pulse is not followed.
    const most = (rest * (b.portLimit - s.draw)) / duty
    const power = Math.min((square / behind ** 2) * load, most)
    return { current: mean / behind, power, s, comesTo: low / behind, first: first / low, time: on }
  }

  /** Bursts at the largest duty until a charge, or until this board stops. */
  bursts(b: B, to: number): number {
    const { duty, time } = this.used.use
    const end = Math.min(1, Math.max(to, this.end(b)))
    const steps = 16
    let count = 0
    for (let i = 0; i < steps; i++) {
      const charge = 1 + ((end - 1) * (i + 0.5)) / steps
      const { current, s } = this.pulse(b, duty, charge)
      count += (this.coulombs(b) * (1 - end)) / steps / ((current * duty + s.draw) * time)
    }
    return count
  }
}
