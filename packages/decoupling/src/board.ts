import type { ReadCapacitor, ReadDecoupling } from './choice.js'
import { ageing, effectiveCapacitance, effectiveSeriesResistance } from './formulas/index.js'
import { type InputSet, loadSymbol, nominalOf } from './inputs.js'
import { factorAt } from './points.js'
import type { BiasedBranch, Branch, Load, Source } from './waveform/index.js'

/** One board at one moment: every part with its value, in SI units. */
export interface Board {
  readonly source: Source
  /** Resistance of the protection's two switches. */
  readonly protection: number
  readonly idle: number
  readonly load: Load
  readonly wantedPower: number
  /** The capacitors at the rail at rest. */
  readonly branches: readonly Branch[]
  /** The same while they charge from 0 V, with the least that their series resistances may be. */
  readonly empty: readonly EmptyBranch[]
  readonly ambientCelsius: number
  /** Forward voltage of the logic rail's diode at this temperature. */
  readonly forwardVoltage: number
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

/**
 * Makes boards. Each takes its values from `x`, which has them in the order of `names` and a 0 behind them: that is what an
 * input that the choice doesn't have is worth. Where each one stands is looked up once.
 */
export function boardMaker(read: ReadDecoupling, names: readonly string[]): (x: Float64Array) => Board {
  const place = (name: string): number => (names.includes(name) ? names.indexOf(name) : names.length)
  const [V_oc, T_a, Y_age, I_0] = [place('V_oc'), place('T_a'), place('Y_age'), place('I_0')]
  const [R_prot, P_want, loadValue] = [place('R_prot'), place('P_want'), place(loadSymbol[read.load.kind])]
  const [V_f, k_f, R_iso] = [place('V_f'), place('k_f'), place('R_iso')]
  const [C_h, I_mcu, I_peak] = [place('C_h'), place('I_mcu'), place('I_peak')]
  const sourceOf = sourceMaker(read, V_oc, place)
  const branchesOf = read.capacitors.map((part, k) => branchMaker(read, part, k, place))
  return (x) => {
    const celsius = x[T_a]!
    const years = x[Y_age]!
    const worn = read.age.to > 0 ? years / read.age.to : 0
    // What is drawn all the time includes the logic's current.
    const idle = Math.max(x[I_0]!, x[I_mcu]!)
    const source = sourceOf(x, celsius, worn)
    const rest = source.voltage - source.resistance * idle
    const branches = new Array<Branch>(branchesOf.length)
    const empty = new Array<EmptyBranch>(branchesOf.length)
    for (let k = 0; k < branches.length; k++) {
      const made = branchesOf[k]!(x, rest, celsius, years)
      branches[k] = made.full
      empty[k] = made.empty
    }
    const current = x[I_mcu]!
    return {
      source,
      protection: x[R_prot]!,
      idle,
      load: loadOf(read.load.kind, x[loadValue]!),
      wantedPower: x[P_want]!,
      branches,
      empty,
      ambientCelsius: celsius,
      forwardVoltage: Math.max(0, x[V_f]! - x[k_f]! * (celsius - 25)),
      logic: { resistance: x[R_iso]!, capacitance: x[C_h]!, current, peak: Math.max(current, x[I_peak]!) },
    }
  }
}

/**
 * What of a series resistance that is stated by its largest value alone damps the plug-in at least. Common practice, no source:
 * typical values are a third to two thirds of the largest.
 */
export const leastOfLargest = 0.3

type Place = (name: string) => number

function sourceMaker({ source }: ReadDecoupling, V_oc: number, place: Place) {
  if (source.kind === 'limited supply') {
    const [R_cable, I_lim] = [place('R_cable'), place('I_lim')]
    return (x: Float64Array): Source => ({
      voltage: x[V_oc]!,
      resistance: x[R_cable]!,
      inductance: 0,
      currentLimit: x[I_lim]!,
    })
  }
  const path = ['R_cont', 'R_prot', 'R_sw', 'R_sens', 'R_conn', 'R_wire'].map(place)
  const [R_cell, k_old, V_pol, L] = [place('R_cell'), place('k_old'), place('V_pol'), place('L')]
  return (x: Float64Array, celsius: number, worn: number): Source => {
    let resistance = x[R_cell]! * factorAt(source.temperature, celsius) * (1 + (x[k_old]! - 1) * worn)
    for (let k = 0; k < path.length; k++) resistance += x[path[k]!]!
    return { voltage: x[V_oc]! - x[V_pol]!, resistance, inductance: x[L]! }
  }
}

function loadOf(kind: ReadDecoupling['load']['kind'], value: number): Load {
  if (kind === 'current') return { kind, current: value }
  return kind === 'resistor' ? { kind, resistance: value } : { kind, power: value }
}

function branchMaker({ age }: ReadDecoupling, part: ReadCapacitor, k: number, place: Place) {
  const [C_r, ESR_r_, ESL] = [place(`C_r${k + 1}`), place(`ESR_r${k + 1}`), place(`ESL_${k + 1}`)]
  const n_C = part.count
  const { lower, upper } = part.fields.seriesResistance
  const least = lower === upper ? leastOfLargest : 1
  // Boards come in rows at one temperature and age: of the factors only that of the bias changes then.
  let factors: Factors | undefined
  let [celsius, years] = [Number.NaN, Number.NaN]
  return (
    x: Float64Array,
    volts: number,
    nowCelsius: number,
    nowYears: number,
  ): { full: Branch; empty: EmptyBranch } => {
    if (factors === undefined || nowCelsius !== celsius || nowYears !== years) {
      ;[celsius, years] = [nowCelsius, nowYears]
      factors = factorsOf(part, volts, celsius, years, age.to > 0 ? years / age.to : 0)
    }
    const { k_temp, k_age, k_cold, k_new } = factors
    const k_bias = biasOf(part, volts)
    const inductance = x[ESL]! / n_C
    const ESR_r = x[ESR_r_]!
    const most = effectiveSeriesResistance({ ESR_r, n_C, k_cold: k_new })
    return {
      full: {
        capacitance: effectiveCapacitance({ n_C, C_r: x[C_r]!, k_bias, k_temp, k_age }),
        resistance: effectiveSeriesResistance({ ESR_r, n_C, k_cold }),
        inductance,
      },
      empty: {
        capacitance: effectiveCapacitance({ n_C, C_r: x[C_r]!, k_bias: 1, k_temp, k_age }),
        resistance: least * most,
        most,
        inductance,
        bias: part.bias,
      },
    }
  }
}

interface Factors {
  readonly k_bias: number
  readonly k_temp: number
  readonly k_age: number
  readonly k_cold: number
  /** The same of a part that hasn't dried out at all. */
  readonly k_new: number
}

/** Hours in a year. */
export const hoursPerYear = 8766

const biasOf = (part: ReadCapacitor, volts: number): number => factorAt(part.bias, Math.max(0, volts))

/** Factors of a kind of capacitor at a rail voltage, a temperature and an age. */
export function factorsOf(part: ReadCapacitor, volts: number, celsius: number, years: number, worn: number): Factors {
  const { ageing: a_dec, wornCapacitance, wornResistance } = part.fields
  const left = ageing({ a_dec: a_dec.upper, t_age: Math.max(1, years * hoursPerYear), t_ref: 1 })
  const k_new = factorAt(part.cold, celsius)
  return {
    k_bias: biasOf(part, volts),
    k_temp: factorAt(part.temperature, celsius),
    k_age: left * (1 - (1 - wornCapacitance.lower) * worn),
    k_cold: k_new * (1 + (wornResistance.upper - 1) * worn),
    k_new,
  }
}

/** The board with given values; every input that isn't given at its nominal value. */
export function boardAt(read: ReadDecoupling, inputs: InputSet, at: Readonly<Record<string, number>> = {}): Board {
  const names = Object.keys(inputs)
  const x = Float64Array.from([...names.map((name) => at[name] ?? nominalOf(inputs[name]!)), 0])
  return boardMaker(read, names)(x)
}
