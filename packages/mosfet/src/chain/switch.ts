import type { AnyFormula, Row } from '@ohmward/budget'
import { type Input, nominalOf } from '@ohmward/quantity'
import type { ReadMosfet } from '../choice.js'
import { impedanceAtMost } from '../datasheet/impedance.js'
import { type SafePulse, safePulsePower } from '../datasheet/pulse.js'
import { guaranteedLine, type OnResistancePoint, straightLine } from '../datasheet/table.js'
import { junctionTemperature } from '../formulas/thermal.js'
import { type Law, lawOf } from '../junction/law.js'
import type { Chosen } from './chosen.js'
import {
  followDrive,
  followEdges,
  followGate,
  followHot,
  followLimit,
  followLosses,
  followOff,
  followSurge,
  type Place,
  type PlaceSymbol,
  put,
} from './follow.js'
import { curveOf, inputsOf, type MosfetInputSet, type MosfetSymbol } from './inputs.js'
import { type Prepared, prepared, type Stage, type Stages } from './prepared.js'
import { type SteadySymbol, steadyOf } from './steady.js'
import { type Topology, topologyOf } from './topology.js'

/** What a switch is made of. */
interface Made {
  readonly topology: Topology
  readonly law: Law
  /** Guaranteed lines of the on-resistance. */
  readonly lines: readonly OnResistancePoint[]
  /** Whether the on-resistance runs straight between its lines. */
  readonly isStraight: boolean
  readonly pulses: readonly SafePulse[] | undefined
  /** Transient thermal impedance of a single pulse by its length, at most. */
  readonly impedance: (seconds: number) => number
  /** Every input that may vary; `T_hot` is the ambient until the junction is solved. */
  readonly inputs: MosfetInputSet
  readonly prepared: Prepared
  readonly place: Place
  readonly row: Row<MosfetSymbol>
}

/** Which stages a way goes through; the shortest first. */
const ways: readonly { readonly to: Stage; readonly through: readonly Stage[] }[] = [
  { to: 'gate', through: ['gate'] },
  { to: 'drive', through: ['gate', 'drive'] },
  { to: 'off', through: ['gate', 'drive', 'off'] },
  { to: 'edges', through: ['gate', 'drive', 'edges'] },
  { to: 'surge', through: ['gate', 'drive', 'edges', 'surge'] },
  { to: 'losses', through: ['gate', 'drive', 'edges', 'losses'] },
  { to: 'limit', through: ['gate', 'drive', 'edges', 'losses', 'limit'] },
]

/** A switch and its place of work: `row` fills the place with inputs, then a stage calculates in it up to its own end. */
export class Switch {
  readonly topology: Topology
  readonly law: Law
  readonly lines: readonly OnResistancePoint[]
  readonly isStraight: boolean
  readonly inputs: MosfetInputSet
  readonly formulas: readonly AnyFormula[]
  readonly stages: Stages
  readonly place: Place
  readonly row: Row<MosfetSymbol>
  readonly #made: Made
  readonly #chosen: Chosen

  constructor(made: Made) {
    this.topology = made.topology
    this.law = made.law
    this.lines = made.lines
    this.isStraight = made.isStraight
    this.inputs = made.inputs
    this.formulas = made.prepared.formulas
    this.stages = made.prepared.stages
    this.place = made.place
    this.row = made.row
    this.#made = made
    this.#chosen = made.prepared.chosen
  }

  /** The same switch with other inputs, or other lines of the on-resistance. It shares the place. */
  with(changes: Partial<Pick<Made, 'inputs' | 'lines'>>): Switch {
    return new Switch({ ...this.#made, ...changes })
  }

  /** Puts the inputs into the place at their nominal values, but for those given. */
  putAt(at: Readonly<Record<string, number>> = {}): Place {
    for (const symbol of namesOf(this.inputs)) this.place[symbol] = at[symbol] ?? nominalOf(this.inputs[symbol])
    return this.place
  }

  /** From the source to the gate. */
  readonly gate = (): Place => {
    followGate(this.place, this.#chosen)
    return this.place
  }

  /** As far as what charges and discharges the gate. */
  readonly drive = (): Place => {
    const y = this.gate()
    followDrive(y, this.#chosen)
    return y
  }

  /** As far as what holds the gate while nothing drives it. */
  readonly off = (): Place => {
    const y = this.drive()
    followOff(y, this.#chosen, this.#made.impedance)
    return y
  }

  /** As far as the edges of the drain. */
  readonly edges = (): Place => {
    const y = this.drive()
    followEdges(y, this.#chosen)
    return y
  }

  /** As far as what an edge does to the transistor. */
  readonly surge = (): Place => {
    const y = this.edges()
    if (this.#made.pulses) y.P_25 = safePulsePower(this.#made.pulses, y.t_slow)
    followSurge(y, this.#chosen)
    return y
  }

  /** As far as what the edges cost, and the line of the on-resistance. */
  readonly losses = (): Place => {
    const y = this.edges()
    const line = this.isStraight ? straightLine(this.lines, y.V_GS) : this.lines[guaranteedLine(this.lines, y.V_GS)]!
    y.R_gua = line.maximum
    y.R_typ = line.typical ?? line.maximum
    followLosses(y, this.#chosen, this.#made.impedance)
    return y
  }

  /** As far as the heat with the junction at its limit. */
  readonly limit = (): Place => {
    const y = this.losses()
    followLimit(y, this.#chosen)
    return y
  }

  /** Everything that goes without the junction's own temperature. */
  readonly cold = (): Place => {
    this.surge()
    this.off()
    return this.limit()
  }

  /** What goes with the junction's temperature in °C, on what {@link Switch.cold} left. */
  hot(celsius: number): Place {
    const y = this.place
    Object.assign(y, this.law.segment(celsius))
    y.T_j = celsius
    followHot(y, this.#chosen)
    // What the temperature's loss makes of it: the same where it balances.
    y.T_j = junctionTemperature(y)
    return y
  }

  /** The shortest way that leaves all symbols named. */
  until(symbols: readonly PlaceSymbol[]): () => Place {
    const { stages } = this
    const needed = (Object.keys(stages) as Stage[]).filter((stage) =>
      stages[stage].some(({ symbol }) => symbols.includes(symbol)),
    )
    const way = ways.find(({ through }) => needed.every((stage) => through.includes(stage)))
    return this[way?.to ?? 'cold']
  }

  /** The symbols behind those named, themselves included; through tables that are looked up by values of the chain, too. */
  behind(symbols: readonly PlaceSymbol[]): ReadonlySet<string> {
    return this.#made.prepared.behind(this.lines.length, symbols)
  }

  /** The formulas with the tables that they look up. */
  get read(): readonly AnyFormula[] {
    return this.#made.prepared.read(this.lines.length)
  }

  /** The inputs with a spread where they are behind the symbols named, nominal elsewhere. */
  only(symbols: readonly PlaceSymbol[]): MosfetInputSet {
    return onlyThese(this.inputs, this.behind(symbols))
  }
}

/**
 * Prepares a choice: which formulas hold is decided once.
 *
 * @param isBrief - whether whoever asks is done with it before another switch is prepared: the place is used again then
 */
export function switchOf(read: ReadMosfet, isBrief = false): Switch {
  const topology = topologyOf(read)
  const inputs: MosfetInputSet = inputsOf(read)
  const curve = curveOf(read)
  const steady = steadyOf(read)
  const ready = prepared(topology, [...namesOf(inputs), ...(Object.keys(steady) as SteadySymbol[])])
  const place = isBrief ? ready.used() : ready.place()
  Object.assign(place, steady)
  return new Switch({
    topology,
    law: lawOf(read.transistor.law),
    lines: read.transistor.onResistance,
    isStraight: read.transistor.between === 'straight',
    pulses: read.transistor.safePulses,
    impedance: kept((seconds) => impedanceAtMost(curve, seconds)),
    inputs,
    prepared: ready,
    place,
    row: (columns, i) => {
      put(place, columns, i)
      return place
    },
  })
}

/** A function of a number that keeps what it gave for the last two: most parts change neither of a place's pulses. */
function kept(make: (x: number) => number): (x: number) => number {
  let [late, early] = [Number.NaN, Number.NaN]
  let [ofLate, ofEarly] = [Number.NaN, Number.NaN]
  return (x) => {
    if (x === late) return ofLate
    if (x === early) return ofEarly
    early = late
    ofEarly = ofLate
    late = x
    ofLate = make(x)
    return ofLate
  }
}

/** The inputs with a spread where they are among those named, nominal elsewhere. */
export function onlyThese(inputs: MosfetInputSet, names: ReadonlySet<string>): MosfetInputSet {
  const held: Record<MosfetSymbol, Input> = { ...inputs }
  for (const symbol of namesOf(inputs)) if (!names.has(symbol)) held[symbol] = nominalOf(inputs[symbol])
  return held
}

const namesOf = (inputs: MosfetInputSet) => Object.keys(inputs) as MosfetSymbol[]
