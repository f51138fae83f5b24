import { type AnyFormula, behind, chain, type Row } from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import type { ReadMosfet } from '../choice.js'
import { type SafePulse, safePulsePower } from '../datasheet/pulse.js'
import { guaranteedLine, type OnResistancePoint } from '../datasheet/table.js'
import { junctionTemperature } from '../formulas/thermal.js'
import { type Law, lawOf } from '../junction/law.js'
import { type Chosen, chosenFor, formulasOf } from './chosen.js'
import { followEdges, followGate, followHot, followLimit, followLosses, followRest, type Place, put } from './follow.js'
import { inputsOf, type MosfetInputSet, type MosfetSymbol, nominalOf } from './inputs.js'
import { type Topology, topologyOf } from './topology.js'

/** A symbol that stands in the place of work. */
export type PlaceSymbol = keyof Place & string

/** What a switch is made of. */
interface Made {
  readonly topology: Topology
  readonly law: Law
  /** Guaranteed lines of the on-resistance. */
  readonly lines: readonly OnResistancePoint[]
  readonly pulses: readonly SafePulse[] | undefined
  /** Every input; `T_hot` is the ambient until the junction is solved. */
  readonly inputs: MosfetInputSet
  readonly chosen: Chosen
  /** Formulas in the order of calculation. */
  readonly formulas: readonly AnyFormula[]
  /** The same without the heat at the junction's own temperature, by stage. */
  readonly stages: readonly (readonly AnyFormula[])[]
  readonly newPlace: () => Place
}

/** A switch and its place of work: `row` fills the place with inputs, then a stage calculates in it up to its own end. */
export class Switch {
  readonly topology: Topology
  readonly law: Law
  readonly lines: readonly OnResistancePoint[]
  readonly inputs: MosfetInputSet
  readonly formulas: readonly AnyFormula[]
  /** The same without the heat at the junction's own temperature, by stage. */
  readonly stages: readonly (readonly AnyFormula[])[]
  readonly place: Place
  readonly row: Row<MosfetSymbol>
  readonly #made: Made

  constructor(made: Made) {
    const place = made.newPlace()
    this.topology = made.topology
    this.law = made.law
    this.lines = made.lines
    this.inputs = made.inputs
    this.formulas = made.formulas
    this.stages = made.stages
    this.place = place
    this.row = (columns, i) => {
      put(place, columns, i)
      return place
    }
    this.#made = made
  }

  /** The same switch with other inputs, or other lines of the on-resistance, and a place of its own. */
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
    followGate(this.place, this.#made.chosen)
    return this.place
  }

  /** As far as the edges of the drain. */
  readonly edges = (): Place => {
    const y = this.gate()
    followEdges(y, this.#made.chosen)
    return y
  }

  /** As far as what the edges cost, and the line of the on-resistance. */
  readonly losses = (): Place => {
    const y = this.edges()
    const line = this.lines[guaranteedLine(this.lines, y.V_GS)]!
    y.R_gua = line.maximum
    y.R_typ = line.typical ?? line.maximum
    followLosses(y, this.#made.chosen)
    return y
  }

  /** As far as the heat with the junction at its limit. */
  readonly limit = (): Place => {
    const y = this.losses()
    followLimit(y, this.#made.chosen)
    return y
  }

  /** Everything that goes without the junction's own temperature. */
  readonly cold = (): Place => {
    const y = this.limit()
    if (this.#made.pulses) y.P_25 = safePulsePower(this.#made.pulses, y.t_slow)
    followRest(y, this.#made.chosen)
    return y
  }

  /** What goes with the junction's temperature in °C, on what {@link Switch.cold} left. */
  hot(celsius: number): Place {
    const y = this.place
    Object.assign(y, this.law.segment(celsius))
    y.T_j = celsius
    followHot(y, this.#made.chosen)
    // What the temperature's loss makes of it: the same where it balances.
    y.T_j = junctionTemperature(y)
    return y
  }

  /** The first stage that leaves all symbols named. */
  until(symbols: readonly PlaceSymbol[]): () => Place {
    const last = this.stages.findLastIndex((stage) => stage.some(({ symbol }) => symbols.includes(symbol)))
    return [this.gate, this.edges, this.losses, this.limit, this.cold][last] ?? (() => this.place)
  }

  /**
   * The symbols behind those named, themselves included. Tables are looked up by values of the chain: the line of the
   * on-resistance by the gate voltage, where there is more than one, and the safe power by the longer edge.
   */
  behind(symbols: readonly PlaceSymbol[]): ReadonlySet<string> {
    const found = behind(this.formulas, symbols)
    const lookedUpBy: PlaceSymbol[] = []
    if (found.has('R_gua') && this.lines.length > 1) lookedUpBy.push('V_GS')
    if (found.has('P_25')) lookedUpBy.push('t_slow')
    return lookedUpBy.length > 0 ? behind(this.formulas, [...symbols, ...lookedUpBy]) : found
  }

  /** The inputs with a spread where they are behind the symbols named, nominal elsewhere. */
  only(symbols: readonly PlaceSymbol[]): MosfetInputSet {
    return onlyThese(this.inputs, this.behind(symbols))
  }
}

/** Prepares a choice: which formulas hold is decided once. */
export function switchOf(read: ReadMosfet): Switch {
  const topology = topologyOf(read)
  const inputs: MosfetInputSet = inputsOf(read)
  const chosen = chosenFor(topology)
  const { gate, edges, losses, hot, limit, rest } = formulasOf(chosen)
  const { place } = chain([...gate, ...edges, ...losses, ...hot, ...limit, ...rest], namesOf(inputs))
  return new Switch({
    topology,
    law: lawOf(read.transistor.law),
    lines: read.transistor.onResistance,
    pulses: read.transistor.safePulses,
    inputs,
    chosen,
    // The balance closes the loop: it gives the temperature that the hot formulas read.
    formulas: [...gate, ...edges, ...losses, ...hot, junctionTemperature, ...limit, ...rest],
    stages: [gate, edges, losses, limit, rest],
    newPlace: place,
  })
}

/** The inputs with a spread where they are among those named, nominal elsewhere. */
export function onlyThese(inputs: MosfetInputSet, names: ReadonlySet<string>): MosfetInputSet {
  const held: Record<MosfetSymbol, Input> = { ...inputs }
  for (const symbol of namesOf(inputs)) if (!names.has(symbol)) held[symbol] = nominalOf(inputs[symbol])
  return held
}

const namesOf = (inputs: MosfetInputSet) => Object.keys(inputs) as MosfetSymbol[]
