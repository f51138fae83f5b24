import { nominalOf } from '@ohmward/quantity'
import type { ReadDecoupling } from '../choice/choice.js'
import { elementSymbol, type InputSet, loadSymbol } from '../choice/inputs.js'
import { emissionVoltage } from '../formulas/index.js'
import type { BiasedBranch, Branch, Load, Pwm, Source } from '../waveform/inside.js'
import { type CapacitorPlace, capacitorPlace, followAge, followParts } from './capacitor.js'
import type { ElementPlace } from './path.js'
import { chainOf, type RailPlace, type SourcePlace, sourcePlace } from './source.js'

/** One board at one moment: every part with its value, in SI units. */
export interface Board {
  readonly source: Source
  /** Resistance of the protection's two switches. */
  readonly protection: number
  readonly idle: number
  readonly load: Load
  /** The pulses of the load; undefined where it isn't pulsed. */
  readonly pwm: Pwm | undefined
  readonly wantedPower: number
  /** The capacitors at the rail at rest. */
  readonly branches: readonly Branch[]
  /** The same while they charge from 0 V, with the least that their series resistances may be. */
  readonly empty: readonly EmptyBranch[]
  readonly ambientCelsius: number
  /** Forward voltage of the logic rail's diode at this temperature. */
  readonly forwardVoltage: number
  /** What e times the current adds to it, and the resistance in series. */
  readonly emission: number
  readonly slope: number
  readonly logic: {
    readonly resistance: number
    readonly capacitance: number
    readonly current: number
    readonly peak: number
  }
}

/** A kind of capacitor while it charges from 0 V. */
export interface EmptyBranch extends BiasedBranch {
  /** The most that its series resistance may be: more than `resistance` where the data sheet states no range. */
  readonly most: number
}

/** Values by symbol: of the rail at rest, of each element of the path, and of each kind of capacitor. */
export interface Places {
  readonly rail: RailPlace
  /** Elements of the power path. */
  readonly path: readonly ElementPlace[]
  readonly kinds: readonly CapacitorPlace[]
}

type Place = Record<string, number>

/** Boltzmann constant, J/K, and elementary charge, C, exact in the SI since 2019; absolute zero, degrees Celsius. */
const siConstants = { k_B: 1.380649e-23, q_e: 1.602176634e-19, T_0: -273.15 }

/**
 * Makes boards, each from its values in the order of `names`; an input that the choice doesn't have is worth 0. Where each one goes is
 * looked up once, and all boards are computed in the same places.
 */
export class Boards {
  readonly places: Places
  readonly #read: ReadDecoupling
  readonly #source: SourcePlace
  readonly #puts: readonly Put[]
  /** What was put last. */
  readonly #last: number[]
  /** Of each kind the branch that was made last, and of what. */
  readonly #made: Made[] = []
  #celsius = Number.NaN
  #years = Number.NaN

  constructor(read: ReadDecoupling, names: readonly string[]) {
    this.#read = read
    const { source, oldest, load } = read
    const made = sourcePlace(source)
    const { rail, path } = made
    this.#source = made
    const kinds = read.capacitors.map(capacitorPlace)
    rail.T_f = 25
    Object.assign(rail, siConstants)
    if (load.pwm) Object.assign(rail, { f_pwm: load.pwm.frequency.from, D: load.pwm.duty.from })
    // Without a range of ages nothing is worn.
    rail.Y_end = oldest || 1
    this.places = { rail, path: path.elements, kinds }
    this.#puts = [
      ...putsOf(rail, chainOf(source).inputs, names),
      ...path.elements.flatMap((y, k) => putsOf(y, ['R_20', 'alpha_el'], names, elementInput(k))),
      ...kinds.flatMap((y, k) => putsOf(y, ['C_r', 'ESR_r', 'ESL'], names, numbered(k))),
    ]
    this.#last = this.#puts.map(() => Number.NaN)
  }

  /** The board with these values. */
  make(x: ArrayLike<number>): Board {
    // From board to board few values change, and a store by name costs more than looking.
    for (let k = 0; k < this.#puts.length; k++) {
      const { into, symbol, from, least } = this.#puts[k]!
      if (x[from] === this.#last[k]) continue
      this.#last[k] = x[from]!
      into[symbol] = Math.max(least, x[from]!)
    }
    this.#source.follow()
    const { rail: y, kinds } = this.places
    const { capacitors, load } = this.#read
    // Boards come in rows at one temperature and age.
    const isNow = y.T_a === this.#celsius && y.Y_age === this.#years
    this.#celsius = y.T_a
    this.#years = y.Y_age
    const branches = new Array<Branch>(kinds.length)
    const empty = new Array<EmptyBranch>(kinds.length)
    const volts = Math.max(0, y.V_rest)
    for (let k = 0; k < kinds.length; k++) {
      const c = kinds[k]!
      const part = capacitors[k]!
      if (!isNow) {
        c.Y_age = y.Y_age
        c.x_age = y.x_age
        followAge(c, part, y.T_a)
      }
      let made = this.#made[k]
      const acting = part.bias === undefined ? 0 : volts
      const isSame = isNow && made?.C_r === c.C_r && made.ESR_r === c.ESR_r && made.ESL === c.ESL
      if (!made || !isSame || made.volts !== acting) {
        followParts(c, part, volts)
        const branch = { capacitance: c.C, resistance: c.ESR, inductance: c.L_C }
        const { C_r, ESR_r, ESL, C_e, ESR_e, ESR_new } = c
        const empty = { capacitance: C_e, resistance: ESR_e, inductance: c.L_C, most: ESR_new, bias: part.bias }
        made = { C_r, ESR_r, ESL, volts: acting, branch, empty }
        this.#made[k] = made
      }
      branches[k] = made.branch
      empty[k] = made.empty
    }
    return {
      source: sourceOf(this.#read, y),
      protection: this.#source.path.protection(),
      idle: y.I_q,
      load: loadOf(load.kind, y[loadSymbol[load.kind]]),
      pwm: load.pwm && { frequency: y.f_pwm, duty: y.D, rise: load.rise, fall: load.fall },
      wantedPower: y.P_want,
      branches,
      empty,
      ambientCelsius: y.T_a,
      forwardVoltage: y.V_fT,
      emission: y.V_e,
      slope: y.r_d,
      logic: { resistance: y.R_iso, capacitance: y.C_h, current: y.I_mcu, peak: y.I_top },
    }
  }
}

/**
 * The least that an input can be worth: a distribution without ends is cut off there. No resistance is below 0, no load and no limited
 * source has none.
 */
function leastOf(symbol: string): number {
  // Temperatures, charges and errors of a voltage may be on either side.
  if (!/^(C_|R_|r_|ESR|ESL|L$|I_|P_|V_f$|n_d)/.test(symbol)) return Number.NEGATIVE_INFINITY
  if (symbol === 'C_r' || symbol === 'C_h') return 1e-12
  return symbol === 'R_L' || symbol === 'R_cable' || symbol === 'I_lim' ? 1e-6 : 0
}

/** What e times the current adds to the drop of a diode with this emission coefficient. */
export const emissionAt = (n_d: number, T_a: number): number => emissionVoltage({ n_d, T_a, ...siConstants })

/** A kind's branches, and the values that they were made of. */
interface Made {
  readonly C_r: number
  readonly ESR_r: number
  readonly ESL: number
  /** Voltage that acts on it; 0 where that changes nothing. */
  readonly volts: number
  readonly branch: Branch
  readonly empty: EmptyBranch
}

/** Where one value goes. */
interface Put {
  readonly into: Place
  readonly symbol: string
  readonly from: number
  readonly least: number
}

/** What an element's value is called among the inputs. */
const elementInput = (k: number) => (symbol: string) => (symbol === 'R_20' ? elementSymbol(k) : `alpha_${k + 1}`)

/** A kind's symbol beside those of the others: `C_r1`, `ESL_1`. */
export const numbered = (k: number) => (symbol: string) => `${symbol}${symbol.includes('_') ? '' : '_'}${k + 1}`

function putsOf(
  into: Place,
  symbols: readonly string[],
  names: readonly string[],
  nameOf = (symbol: string): string => symbol,
): Put[] {
  return symbols.flatMap((symbol) => {
    const from = names.indexOf(nameOf(symbol))
    return from < 0 ? [] : [{ into, symbol, from, least: leastOf(symbol) }]
  })
}

function sourceOf({ source }: ReadDecoupling, y: RailPlace): Source {
  const free = { voltage: y.V_s, resistance: y.R_s, inductance: y.L }
  return source.currentLimit === undefined ? free : { ...free, currentLimit: y.I_lim }
}

function loadOf(kind: ReadDecoupling['load']['kind'], value: number): Load {
  if (kind === 'current') return { kind, current: value }
  return kind === 'resistor' ? { kind, resistance: value } : { kind, power: value }
}

/** The board with given values, every input that isn't given at its nominal one, and the places that it was computed in. */
export function boardWith(
  read: ReadDecoupling,
  inputs: InputSet,
  at: Readonly<Record<string, number>> = {},
): { readonly board: Board; readonly places: Places } {
  const names = Object.keys(inputs)
  const boards = new Boards(read, names)
  return { board: boards.make(names.map((name) => at[name] ?? nominalOf(inputs[name]!))), places: boards.places }
}

/** The board alone. */
export const boardAt = (read: ReadDecoupling, inputs: InputSet, at?: Readonly<Record<string, number>>): Board =>
  boardWith(read, inputs, at).board
