import type { Board } from '../tools/board.js'
import { apply, exponential } from '../tools/linear.js'
import type { CurrentDesign, Value } from './design.js'

/** What is seen of one reading. */
export interface Seen {
  /** What the sensor would put out with room enough. */
  wanted: number
  supply: number
  pin: number
  fullScale: number
  /** Continuous code, before it is clipped. */
  code: number
  shown: number
}

/** A moment: rail and warmth, and whether it is the reading of the zero. */
export interface Moment {
  readonly rail: number
  /** Supply of the sensor; the rail where it lives on that. */
  readonly supply?: number
  readonly warmth: number
  readonly isZero: boolean
}

/** A current sensor with its filter and converter. */
export class CurrentCircuit {
  private readonly design: CurrentDesign
  readonly seen: Seen = { wanted: 0, supply: 0, pin: 0, fullScale: 0, code: 0, shown: 0 }
  /** Whether outputs and codes are held in what sensor and converter reach. */
  clips = true
  /** By how much a step is larger at first, a share of it, and with what time constant that fades, s. */
  fall = { first: 0, time: 1 }

  constructor(design: CurrentDesign) {
    this.design = design
  }

  /** Output of the sensor at a current, with room enough. */
  private output(b: Board<Value>, m: Moment, amperes: number): number {
    const { plain } = this.design
    const supply = m.supply ?? m.rail
    const away = supply - plain.ratedSupply
    const share = away / (away < 0 ? plain.ratedSupply - plain.supplyMinimum : plain.supplyMaximum - plain.ratedSupply)
    const follows = plain.ratiometric ? supply / plain.ratedSupply : 1
    const zero = plain.zero * (1 + b.zeroSupply * share) + b.zeroError + b.zeroDrift * m.warmth
    const sensitivity =
      plain.sensitivity * (1 + b.sensitivityError + b.sensitivityDrift * m.warmth + b.sensitivitySupply * share)
    // Nonlinearity, remanence and fields are currents that aren't there.
    const pretended = m.isZero ? b.fieldThen : b.nonlinearity + b.hysteresis + b.field + b.neighbour
    const noise = m.isZero ? b.sensorNoiseZero : b.sensorNoise
    return (zero + sensitivity * amperes + plain.sensitivity * pretended + noise) * follows
  }

  /** Share of a step from off to on that stands at the converter's pin when it is read. */
  private settled(b: Board<Value>): number {
    const { plain } = this.design
    const sensor = 1 / (2 * Math.PI * plain.bandwidth)
    const filter = (b.outputResistance + b.filterResistance) * b.filterCapacitance
    const { first, time } = this.fall
    // Two poles, one after the other, the step as a state that stays, and what is more at first as one that fades.
    const a = [
      Float64Array.of(-1 / sensor, 0, 1 / sensor, 1 / sensor),
      Float64Array.of(1 / filter, -1 / filter, 0, 0),
      new Float64Array(4),
      Float64Array.of(0, 0, 0, -1 / time),
    ]
    if (!plain.averaged) return apply(exponential(a, Math.max(plain.wait - plain.edge, 0)), [0, 0, 1, first])[1]!
    return 1
  }

  /** One reading, of a mean current where the filter averages. */
  read(b: Board<Value>, amperes: number, m: Moment): Seen {
    const { plain } = this.design
    const { seen } = this
    const fullScale = plain.ownReference ? b.converterReference * (1 + b.referenceDrift * m.warmth) : m.rail
    const largest = Math.max(Math.abs(plain.from), plain.to)
    const duty =
      plain.averaged && !m.isZero ? Math.min(Math.max(Math.abs(amperes) / largest, plain.duty.from), plain.duty.to) : 1
    const held = (volts: number) =>
      this.clips ? Math.max(plain.lowOutput, Math.min(volts, (m.supply ?? m.rail) - plain.highDrop)) : volts
    seen.wanted = this.output(b, m, amperes / duty)
    const [on, off] = [held(seen.wanted), held(this.output(b, m, 0))]
    let volts = on
    if (!m.isZero) {
      if (plain.averaged) volts = off + (on - off) * this.wave(b, duty)
      else volts = off + (on - off) * this.settled(b)
    }
    seen.pin = volts - (m.isZero ? 0 : b.pinLeakage) * (b.outputResistance + b.filterResistance)
    const counts = m.isZero ? b.countsZero + b.countNoiseZero : b.counts + b.countNoise
    const top = 2 ** plain.bits
    seen.supply = m.supply ?? m.rail
    seen.fullScale = fullScale
    seen.code = (seen.pin / fullScale) * top * (1 + b.converterGain) + b.converterOffset + counts
    const code = this.clips ? Math.min(Math.max(seen.code, plain.half), top - 1 + plain.half) : seen.code
    seen.shown = this.firmware(code)
    return seen
  }

  /** Share of the step at the pin behind an averaging filter, at its crest, its mean or its trough: one pole in its steady state. */
  private wave(b: Board<Value>, duty: number): number {
    const { frequency } = this.design.plain
    const filter = (b.outputResistance + b.filterResistance) * b.filterCapacitance
    const rising = Math.exp(-duty / frequency / filter)
    const falling = Math.exp(-(1 - duty) / frequency / filter)
    // v returns to itself: crest = 1 - (1 - trough) rising, trough = crest falling.
    const crest = (1 - rising) / (1 - rising * falling)
    if (b.phase === 0) return duty
    return b.phase > 0 ? duty + b.phase * (crest - duty) : duty - b.phase * (crest * falling - duty)
  }

  /** Undoes the chain with nominal parts and the rail in the middle. */
  private firmware(code: number): number {
    const { plain, box } = this.design
    const rail = box.rail[1]
    const fullScale = plain.ownReference ? box.converterReference[1] : rail
    const follows = plain.ratiometric ? (plain.supplyAssumed ?? rail) / plain.ratedSupply : 1
    return ((code / 2 ** plain.bits) * fullScale - plain.zero * follows) / (plain.sensitivity * follows)
  }

  /** What the device shows at last. */
  reading(b: Board<Value>, amperes: number): number {
    const { plain } = this.design
    const now = this.read(b, amperes, { rail: b.rail, warmth: b.warmth, isZero: false }).shown
    if (plain.calibration === 'none') return now
    return now - this.read(b, 0, { rail: plain.railThen, warmth: plain.warmthThen, isZero: true }).shown
  }
}
