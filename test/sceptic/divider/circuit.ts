import type { Board } from '../tools/board.js'
import { Network } from '../tools/network.js'
import type { DividerDesign, Plain, Value } from './design.js'

/** What is seen of one reading. */
export interface Seen {
  /** Test current through the load. */
  current: number
  /** Dissipation of the reference resistor while it flows. */
  heat: number
  /** Non-inverting input. */
  input: number
  /** What the amplifier would put out with room enough. */
  wanted: number
  supply: number
  fullScale: number
  /** Continuous code, before it is clipped. */
  code: number
  /** What the firmware shows. */
  shown: number
}

/** The moment of a reading: what is at the sense points, and where. */
export interface Moment {
  readonly load: number
  readonly rail: number
  readonly warmth: number
  readonly inUse: boolean
  readonly inputNoise: number
  /** What rounding, nonlinearity and noise add to the code; or how to make a whole code of a continuous one. */
  readonly counts: number | ((code: number) => number)
}

/** A low-ohm measurement by its node equations. */
export class DividerCircuit {
  private readonly grounded = new Network(6, 3)
  private readonly hanging = new Network(7, 4)
  private readonly design: DividerDesign
  private heating = 0
  readonly seen: Seen = { current: 0, heat: 0, input: 0, wanted: 0, supply: 0, fullScale: 0, code: 0, shown: 0 }

  constructor(design: DividerDesign) {
    this.design = design
  }

  /** Follows one reading. */
  read(b: Board<Value>, m: Moment): Seen {
    const { plain } = this.design
    const excitation = plain.ownExcitation ? b.excitation : m.rail
    const supply = plain.ownSupply ? b.supply : m.rail
    // The offset is that at the supply and at the common mode of the sheet.
    const offset =
      b.offset +
      b.offsetDrift * m.warmth +
      (supply - plain.offsetSupply) * b.supplyRejection -
      plain.offsetAt * b.commonMode +
      m.inputNoise
    const wire = b.lead + (m.inUse ? b.contact : 0)
    const outside = b.switchResistance + (plain.twoWires ? 0 : wire)
    const span = m.load + b.inSpan + (plain.twoWires ? wire : 0)
    const { seen } = this
    // The reference resistor heats itself: its resistance and the current are found together, from the last board's on.
    let warmer = m.warmth + this.heating
    for (let turn = 0; turn < 20; turn++) {
      const reference = b.reference * (1 + b.referenceCoefficient * warmer)
      if (plain.atRail) this.solveAtRail(b, m, { excitation, outside, span, reference, offset })
      else this.solveGrounded(b, m, { excitation, outside, span, reference, offset })
      this.heating = plain.thermalResistance * plain.duty * seen.heat
      const next = m.warmth + this.heating
      if (Math.abs(next - warmer) < 1e-4) break
      warmer = next
    }
    const fullScale = plain.ownReference ? b.converterReference * (1 + b.referenceDrift * m.warmth) : m.rail
    if (!plain.atRail) seen.wanted += b.pedestal * fullScale
    const output = Math.max(plain.lowOutput, Math.min(seen.wanted, supply - plain.highDrop))
    const pin = output - b.pinLeakage * plain.filterResistance
    const top = 2 ** plain.bits
    const code = (pin / fullScale) * top * (1 + b.converterGain) + b.converterOffset
    seen.supply = supply
    seen.fullScale = fullScale
    seen.code = typeof m.counts === 'number' ? code + m.counts : m.counts(code)
    seen.shown = this.firmware(Math.min(Math.max(seen.code, plain.half), top - 1 + plain.half))
    return seen
  }

  /** Load between sense node and ground; the amplifier reads the sense node against ground. */
  private solveGrounded(b: Board<Value>, m: Moment, at: Solved): void {
    const [source, sense, lifted, plus, minus, output] = [1, 2, 3, 4, 5, 6]
    const n = this.grounded
    n.clear()
    n.voltage(source!, 0, at.excitation - b.saturation)
    n.resistor(source!, sense!, at.outside + at.reference)
    n.resistor(sense!, 0, at.span)
    n.current(0, sense!, m.inUse ? b.leakage : 0)
    n.voltage(lifted!, sense!, m.inUse ? b.thermoelectric : 0)
    n.resistor(lifted!, plus!, this.design.plain.protection)
    n.current(0, plus!, b.bias + b.biasDifference / 2 + (m.inUse ? b.clampLeakage : 0))
    n.resistor(output!, minus!, b.feedback * (1 + b.gainDrift * m.warmth))
    n.resistor(minus!, 0, b.ground)
    n.current(0, minus!, b.bias - b.biasDifference / 2)
    n.amplifier(output!, plus!, minus!, b.inverseGain, b.commonMode, at.offset)
    const v = n.solve()
    const current = (v[source!]! - v[sense!]!) / (at.outside + at.reference)
    this.seen.current = current
    this.seen.heat = current * current * at.reference
    this.seen.input = v[plus!]!
    this.seen.wanted = v[output!]!
  }

  /** Load between rail and sense node; four resistors make a difference amplifier of it. */
  private solveAtRail(b: Board<Value>, m: Moment, at: Solved): void {
    const [source, sense, bottom, plus, minus, output, lifted] = [1, 2, 3, 4, 5, 6, 7]
    const n = this.hanging
    n.clear()
    n.voltage(source!, 0, at.excitation)
    n.resistor(source!, sense!, at.span)
    n.resistor(sense!, bottom!, at.outside + at.reference)
    n.voltage(bottom!, 0, b.saturation)
    n.current(sense!, 0, m.inUse ? b.leakage : 0)
    n.voltage(sense!, lifted!, m.inUse ? b.thermoelectric : 0)
    n.resistor(source!, plus!, b.groundPlus / (1 + b.gainDriftPlus * m.warmth))
    n.resistor(plus!, 0, b.feedbackPlus)
    n.resistor(lifted!, minus!, b.ground)
    n.resistor(output!, minus!, b.feedback * (1 + b.gainDrift * m.warmth))
    n.current(0, plus!, b.bias + b.biasDifference / 2)
    n.current(0, minus!, b.bias - b.biasDifference / 2)
    n.amplifier(output!, plus!, minus!, b.inverseGain, b.commonMode, at.offset)
    const v = n.solve()
    const through = (v[sense!]! - v[bottom!]!) / (at.outside + at.reference)
    this.seen.current = (v[source!]! - v[sense!]!) / at.span
    this.seen.heat = through * through * at.reference
    this.seen.input = v[plus!]!
    this.seen.wanted = v[output!]!
  }

  /** Undoes the circuit with nominal parts: code to voltage, voltage to resistance. */
  private firmware(code: number): number {
    const { plain, box } = this.design
    const of = (name: Value) => box[name][1]
    const fullScale = plain.ownReference ? of('converterReference') : of('rail')
    const excitation = plain.ownExcitation ? of('excitation') : of('rail')
    const output = (code / 2 ** plain.bits - (plain.atRail ? 0 : of('pedestal'))) * fullScale
    const ratio = of('feedback') / of('ground')
    const outside = of('reference') + of('switchResistance') + (plain.twoWires ? 0 : of('lead'))
    const inside = plain.twoWires ? of('lead') : 0
    if (!plain.atRail) {
      const sense = output / (1 + ratio)
      return (outside * sense) / (excitation - of('saturation') - sense) - inside
    }
    const across = output / ratio
    const sense = excitation - across
    const input = (excitation * ratio) / (1 + ratio)
    return across / ((sense - of('saturation')) / outside + (sense - input) / of('ground')) - inside
  }

  /** What the device shows at last: a reading, corrected by what was read on the bench with the same parts. */
  reading(b: Board<Value>, load: number, round?: (code: number) => number): number {
    const { plain, box } = this.design
    const now = this.read(b, {
      load,
      rail: b.rail,
      warmth: b.warmth,
      inUse: true,
      inputNoise: b.inputNoise,
      counts: round ?? b.counts + b.countNoise,
    }).shown
    if (plain.calibration === 'none') return now
    const bench = { rail: plain.railThen, warmth: b.benchWarmth, inUse: false }
    const zero = this.read(b, {
      ...bench,
      load: b.short,
      inputNoise: b.inputNoiseShort,
      counts: round ?? b.countsShort + b.countNoiseShort,
    }).shown
    if (plain.calibration === 'zero') return now - zero
    const known = this.read(b, {
      ...bench,
      load: b.known,
      inputNoise: b.inputNoiseKnown,
      counts: round ?? b.countsKnown + b.countNoiseKnown,
    }).shown
    return ((now - zero) * box.known[1]) / (known - zero)
  }
}

interface Solved {
  readonly excitation: number
  readonly outside: number
  readonly span: number
  readonly reference: number
  readonly offset: number
}

/** A step through the amplifier, which recovers, slews and then follows with one pole, and through the filter behind it. */
export function unsettled(plain: Plain, gain: number, from: number, to: number): number {
  const pole = (2 * Math.PI * plain.bandwidth) / gain
  let amplifier = from
  let filtered = from
  let t = plain.recovery
  const step = Math.max(Math.min(0.1 / pole, plain.filter > 0 ? plain.filter / 10 : Infinity), plain.wait / 20_000)
  while (t < plain.wait) {
    const h = Math.min(step, plain.wait - t)
    // Exact over a step for one pole; the slope never more than the amplifier slews.
    const before = amplifier
    const wish = (to - amplifier) * -Math.expm1(-h * pole)
    amplifier += Math.sign(wish) * Math.min(Math.abs(wish), plain.slew * h)
    const mean = (before + amplifier) / 2
    filtered = plain.filter > 0 ? filtered + (mean - filtered) * -Math.expm1(-h / plain.filter) : amplifier
    t += h
  }
  return plain.wait <= plain.recovery ? from - to : filtered - to
}
