import type { Firmware } from '@ohmward/frontend'
import { DividerCircuit } from '../divider/circuit.js'
import type { DividerDesign, Value as DividerValue } from '../divider/design.js'
import { CurrentCircuit, type Moment } from '../hall/circuit.js'
import type { CurrentDesign, Value as CurrentValue } from '../hall/design.js'
import type { Board, Box, Limits } from '../tools/board.js'
import type { RailNumber } from './rail.js'
import { restingAt, type Solved, type State, solve } from './solve.js'
import { railNames, type Value, type Whole } from './whole.js'

type B = Board<Value>

/** Constants in the firmware, as the answer tells them: rails that it assumes where it needs one, V. */
export interface Assumed extends Pick<Firmware, 'measuring' | 'rail' | 'excitation'> {
  /** Supply of a sensor that doesn't live with the converter. */
  readonly sensor: number
}

/** A current that falls: by how much it is larger at first, how fast that fades, and how much of the drop of the rail is left when it is read. */
export interface Falling {
  readonly first: number
  readonly time: number
  readonly left: number
}

/** A row: how much a board has left of its limit, and which of its values it hangs on. */
export interface Held {
  readonly id: string
  readonly slack: (b: B) => number
  readonly box: Box<Value>
  /** For an error in both directions, several searches. */
  readonly starts: number
}

/** A board of a whole design, each state by its own equations. */
export class WholeBoard {
  private readonly whole: Whole
  private readonly divider: DividerCircuit
  private readonly hall: CurrentCircuit
  private readonly dividerDesign: DividerDesign
  private readonly currentDesign: CurrentDesign
  private readonly d = {} as Board<DividerValue>
  private readonly h = {} as Board<CurrentValue>

  constructor(whole: Whole, assumed: Assumed) {
    this.whole = whole
    const { divider, current, plain } = whole
    const { lives } = plain
    const middle = ([lower, , upper]: Limits, nominal: number): Limits => [lower, nominal, upper]
    const isDriven = divider.plain.atRail && lives.converter !== 0
    this.dividerDesign = {
      ...divider,
      box: {
        ...divider.box,
        rail: middle(divider.box.rail, assumed.measuring),
        ...(isDriven && { excitation: middle(divider.box.excitation, assumed.excitation) }),
      },
      plain: {
        ...divider.plain,
        railThen: assumed.measuring,
        ownExcitation: divider.plain.ownExcitation || isDriven,
        ownSupply: divider.plain.ownSupply || lives.amplifier !== lives.converter,
      },
    }
    this.currentDesign = {
      ...current,
      box: { ...current.box, rail: middle(current.box.rail, assumed.rail) },
      plain: { ...current.plain, ...(lives.sensor !== lives.converter && { supplyAssumed: assumed.sensor }) },
    }
    this.divider = new DividerCircuit(this.dividerDesign)
    this.hall = new CurrentCircuit(this.currentDesign)
  }

  /** Resistance of the loop of the test current at a load. */
  private loop(b: B, load: number): number {
    return b['divider reference'] + b['divider switchResistance'] + b['divider lead'] + load
  }

  solve(b: B, load: number): Solved {
    return solve(this.whole, b, this.loop(b, load))
  }

  private on(s: Solved, rail: number, state: State): number {
    return s.rails[state][rail]!
  }

  /** The values of the divider's own board, what the supply gives it among them. */
  private measuring(b: B, load: number): Board<DividerValue> {
    const { d } = this
    const { plain, divider } = this.whole
    const s = this.solve(b, load)
    for (const name in divider.box) d[name as DividerValue] = b[`divider ${name as DividerValue}`]
    d.rail = this.on(s, plain.lives.converter, 'measuring')
    d.warmth = b.celsius - 25
    if (!divider.plain.ownExcitation) d.excitation = s.measuring
    if (!divider.plain.ownSupply) d.supply = this.on(s, plain.lives.amplifier, 'measuring')
    return d
  }

  resistance(b: B, load: number): number {
    return this.divider.reading(this.measuring(b, load), load)
  }

  divided(b: B, load: number) {
    const d = this.measuring(b, load)
    const seen = this.divider.read(d, {
      load,
      rail: d.rail,
      warmth: d.warmth,
      inUse: true,
      inputNoise: d.inputNoise,
      counts: d.counts + d.countNoise,
    })
    if (!this.dividerDesign.plain.ownSupply) seen.supply = d.rail
    return seen
  }

  /** @param left - share of the drop from rest to sag that the rail still has before it */
  private sensed(b: B, left = 0): { h: Board<CurrentValue>; now: Moment; s: Solved } {
    const { h } = this
    const { plain, current, divider } = this.whole
    const s = this.solve(b, divider.plain.middle)
    for (const name in current.box) h[name as CurrentValue] = b[`hall ${name as CurrentValue}`]
    const [cold, , hot] = current.box.warmth
    const air = this.whole.box.celsius
    const rise = hot - cold - (air[2] - air[0])
    const held = (rail: number) => (1 - left) * this.on(s, rail, 'sag') + left * this.on(s, rail, 'rest')
    const now = {
      rail: held(plain.lives.converter),
      supply: held(plain.lives.sensor),
      warmth: b.celsius - 25 + b.sensorWarm * rise,
      isZero: false,
    }
    h.rail = now.rail
    return { h, now, s }
  }

  current(b: B, amperes: number) {
    const { h, now } = this.sensed(b)
    return this.hall.read(h, amperes, now)
  }

  /** What the firmware shows for a current, less the zero that it read; of a pulse for what it comes to, and how it falls to that. */
  amperes(b: B, amperes: number, fall?: Falling): number {
    const { h, now, s } = this.sensed(b, fall?.left)
    const { plain, current } = this.whole
    if (fall) this.hall.fall = fall
    const shown = this.hall.read(h, amperes, now).shown
    this.hall.fall = { first: 0, time: 1 }
    if (plain.calibration === 'none') return shown
    const isFresh = plain.calibration === 'zero each time'
    const then = isFresh
      ? s.rails.rest
      : restingAt(this.whole, b, b.chargeThen, current.plain.warmthThen + 25, b.lifeThen)
    const zero: Moment = {
      rail: then[plain.lives.converter]!,
      supply: then[plain.lives.sensor]!,
      warmth: isFresh ? now.warmth : current.plain.warmthThen,
      isZero: true,
    }
    const [field, leak] = [h.fieldThen, h.pinLeakage]
    // Just before the use the field is still that of the use, and so is what the magnet kept.
    if (isFresh) h.fieldThen = h.field + h.hysteresis
    const read = this.hall.read(h, 0, zero).shown
    h.fieldThen = field
    h.pinLeakage = leak
    return shown - read
  }

  /** Every row that the model knows, over the boxes of what it hangs on. */
  rows(): Held[] {
    const { whole, dividerDesign, currentDesign } = this
    const { plain, divider, box, switch: own } = whole
    const { lives } = plain
    const d = dividerDesign.plain
    const h = currentDesign.plain
    const found: Held[] = []
    const loopNames = ['reference', 'switchResistance', 'lead', 'excitation'] as const
    const named = <K extends string>(block: 'divider' | 'hall', from: Box<K>, but: readonly string[] = []) =>
      Object.fromEntries(
        Object.entries<Limits>(from)
          .filter(([name]) => !but.includes(name))
          .map(([name, limits]) => [`${block} ${name}`, limits]),
      )
    const loop = Object.fromEntries(loopNames.map((name) => [`divider ${name}`, divider.box[name]]))
    const boxes = {
      supply: { ...box, ...loop },
      divider: { ...box, ...named('divider', divider.box, ['rail', 'warmth']) },
      hall: { ...box, ...loop, ...named('hall', this.hallBox(), ['rail', 'warmth']) },
    } as unknown as Record<'supply' | 'divider' | 'hall', Box<Value>>
    const row = (id: string, on: keyof typeof boxes, slack: (b: B) => number, starts = 1) =>
      found.push({ id, slack, box: boxes[on], starts })
    const at = (b: B) => this.solve(b, d.middle)
    const lowest = (b: B, rail: number) => this.on(at(b), rail, 'sag')

    row('divider/headroom', 'divider', (b) => {
      const y = this.divided(b, d.highest)
      return y.supply - d.highDrop - y.wanted
    })
    row('divider/dead-zone', 'divider', (b) => this.divided(b, d.smallest).wanted - d.lowOutput)
    if (d.ownSupply || d.ownReference)
      row('divider/full-scale', 'divider', (b) => {
        const y = this.divided(b, d.highest)
        return y.fullScale - y.wanted
      })
    row('divider/test-current', 'divider', (b) => d.currentLimit - this.divided(b, d.smallest).current)
    row('divider/dissipation', 'divider', (b) => d.ratedPower / 2 - this.divided(b, d.smallest).heat * d.duty)
    row('divider/common-mode-high', 'divider', (b) => {
      const y = this.divided(b, d.highest)
      return y.supply - d.commonModeHighDrop - y.input
    })
    row('divider/common-mode-low', 'divider', (b) => this.divided(b, d.smallest).input - d.commonModeLow)
    row('divider/supply-low', 'divider', (b) => this.divided(b, d.middle).supply - d.supplyMinimum)
    row('divider/supply-high', 'divider', (b) => d.supplyMaximum - this.divided(b, d.middle).supply)
    for (const [size, load] of [
      ['smallest', d.smallest],
      ['nominal', d.middle],
      ['largest', d.highest],
    ] as const)
      row(`divider/error-${size}`, 'divider', (b) => d.share * load - Math.abs(this.resistance(b, load) - load), 2)

    row('hall/span-high', 'hall', (b) => {
      const y = this.current(b, h.to)
      return y.supply - h.highDrop - y.wanted
    })
    row('hall/span-low', 'hall', (b) => this.current(b, 0).wanted - h.lowOutput)
    row('hall/converter-high', 'hall', (b) => {
      const y = this.current(b, h.to)
      return y.fullScale * (1 - 1 / 2 ** h.bits) - y.pin
    })
    row('hall/supply-low', 'hall', (b) => lowest(b, lives.sensor) - plain.sensorMinimum)
    row('hall/supply-high', 'hall', (b) => plain.sensorMaximum - lowest(b, lives.sensor))
    row('rails/sensor-highest', 'hall', (b) => plain.sensorMaximum - this.on(at(b), lives.sensor, 'rest'))
    h.errors.forEach(({ at: amperes, share }, i) => {
      const allowed = Number((share * amperes).toPrecision(3))
      row(`hall/error-${i + 1}`, 'hall', (b) => allowed - Math.abs(this.amperes(b, amperes) - amperes), 2)
    })

    row('mosfet/gate-drive', 'supply', (b) => at(b).gate - own.plain.lines[0]!.gate)
    row('mosfet/junction', 'supply', (b) => own.plain.limitCelsius - at(b).junction)

    if (lives.controller === 0) {
      row('decoupling/rail-brown-out', 'supply', (b) => at(b).sag - plain.brownOut)
      // The highest of the limits.
      const limit = Math.max(plain.brownOut, plain.clock, lives.sensor > 0 ? 0 : plain.sensorMinimum)
      row('decoupling/steady-sag', 'supply', (b) => at(b).sag - limit)
      row('decoupling/rail-clock', 'supply', (b) => at(b).sag - plain.clock)
    } else {
      row('rails/brown-out', 'supply', (b) => lowest(b, lives.controller) - plain.brownOut)
      row('rails/clock', 'supply', (b) => lowest(b, lives.controller) - plain.clock)
    }
    if (lives.sensor === 0) row('decoupling/rail-sensor', 'supply', (b) => at(b).sag - plain.sensorMinimum)
    this.supplyRows(row)
    for (const n of [1, 2] as const) this.regulatorRows(row, n)
    if (lives.sensor !== lives.converter) this.pinRow(row, 'sensor', plain.filterSeries)
    if (lives.amplifier !== lives.converter) this.pinRow(row, 'amplifier', plain.pinSeries)
    return found
  }

  /** Current, input and junction of the regulator of a rail. */
  private regulatorRows(row: RowMaker, n: RailNumber): void {
    const { lives, rails, source2 } = this.whole.plain
    const { atRail, ownExcitation, smallest, middle } = this.dividerDesign.plain
    const regulator = rails[n]
    if (regulator.kind !== 'regulator') return
    const name = railNames[n]
    const source = n === 2 ? source2 : 0
    const isExcited = lives.converter === n || (n === 1 && source2 === 1 && lives.converter === 2)
    row(`rails/regulator-current-${name}`, 'supply', (b) => {
      const { draws, test } = this.solve(b, smallest)
      return regulator.most - draws[n]! - (!atRail && !ownExcitation && isExcited ? test : 0)
    })
    const at = (b: B) => this.solve(b, middle)
    row(`rails/regulator-input-${name}`, 'supply', (b) => regulator.highestInput - at(b).rails.rest[source]!)
    row(`rails/regulator-junction-${name}`, 'supply', (b) => {
      const { rails: all, draws } = at(b)
      const [from, to] = [all.rest[source]!, all.rest[n]!]
      return 125 - b.celsius - ((from - to) * draws[n]! + from * b[`rail${n}Own`]) * regulator.thermal
    })
  }

  /** A pin of the converter that stands above its rail and the 0.3 V of its clamp. */
  private pinRow(row: RowMaker, part: 'sensor' | 'amplifier', ohms: number): void {
    const { lives, pinMost } = this.whole.plain
    for (const state of ['rest', 'sag'] as const)
      row(`rails/pin-${part}`, 'supply', (b) => {
        const s = this.solve(b, this.dividerDesign.plain.middle)
        const over = this.on(s, lives[part], state) - this.on(s, lives.converter, state) - 0.3
        return pinMost - Math.max(0, over) / ohms
      })
  }

  /** What the currents do to source and path. */
  private supplyRows(row: RowMaker): void {
    const { source, path } = this.whole.plain
    const at = (b: B) => this.solve(b, this.dividerDesign.plain.middle)
    const all = (s: Solved) => s.current + s.draw
    if (source.kind === 'cell') {
      row('supply/continuous-current-of-cells', 'supply', (b) => source.continuous - all(at(b)))
      row('supply/pulse-current-of-cells', 'supply', (b) => source.pulse - all(at(b)))
    } else
      row('supply/current-limit-of-port', 'supply', (b) => {
        const s = at(b)
        return b.portLimit - s.draw - (s.open - s.draw * s.source) / (s.source + s.load + s.way)
      })
    path.forEach(({ name, highest, most, trip }, k) => {
      if (highest !== undefined) row(`supply/temperature-of-${name}`, 'supply', (b) => highest - at(b).path[k]!.celsius)
      if (most !== undefined)
        row(`supply/current-limit-of-${name}`, 'supply', (b) => most - at(b).current - (k < 3 ? at(b).draw : 0))
      // Seven tenths of the least current that trips; the first instant is that of a path that is still cold, too.
      if (trip) row(`supply/trip-of-${name}`, 'supply', (b) => (0.7 * trip[0]) / at(b).path[k]!.ohms - all(at(b)))
    })
  }

  /** The current's box, its zero read again where it is. */
  hallBox(): Box<CurrentValue> {
    const { plain, current } = this.whole
    const { box } = current
    const none: Limits = [0, 0, 0]
    if (plain.calibration === 'none')
      return { ...box, fieldThen: none, sensorNoiseZero: none, countsZero: none, countNoiseZero: none }
    return {
      ...box,
      fieldThen: box.field,
      sensorNoiseZero: box.sensorNoise,
      countsZero: box.counts,
      countNoiseZero: box.countNoise,
    }
  }
}

type RowMaker = (id: string, on: 'supply' | 'divider' | 'hall', slack: (b: B) => number, starts?: number) => void
