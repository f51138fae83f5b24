import type { Row } from '@ohmward/budget'
import type { Input, Spread } from '@ohmward/quantity'
import type { ReadCapacitor, ReadDecoupling } from './choice.js'
import { ageing, effectiveCapacitance, effectiveSeriesResistance } from './formulas/index.js'
import { factorAt } from './points.js'
import type { Branch, Load, Source } from './waveform/index.js'

/** One board at one moment: every part with its value, in SI units. */
export interface Board {
  readonly source: Source
  /** Resistance of the protection's two switches. */
  readonly protection: number
  readonly idle: number
  readonly load: Load
  readonly wantedPower: number
  readonly branches: readonly Branch[]
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

/** Inputs of the engines: parts by symbol, a number behind the symbols of each kind of capacitor. */
export type InputSet = Record<string, Input>

/** Conditions to cover: open-circuit voltage, temperature, age in years. */
export const conditionNames = ['V_oc', 'T_a', 'Y_age'] as const

const range = ({ from, to }: { from: number; to: number }): Input =>
  from === to ? from : { nominal: (from + to) / 2, lower: from, upper: to, distribution: { kind: 'rectangular' } }

/** Every input of the choice. */
export function inputsOf(read: ReadDecoupling): InputSet {
  const inputs: InputSet = { V_oc: range(read.openCircuit), T_a: range(read.ambient), Y_age: range(read.age) }
  const { source, load, logicRail } = read
  if (source.kind === 'cell') {
    const { cellResistance, contacts, protection, switchResistance, sensor, connector, wiring } = source.fields
    Object.assign(inputs, {
      R_cell: cellResistance,
      R_cont: contacts,
      R_prot: protection,
      R_sw: switchResistance,
      R_sens: sensor,
      R_conn: connector,
      R_wire: wiring,
      k_old: source.fields.ageFactor,
      V_pol: source.fields.polarityDrop,
      L: source.fields.inductance,
    })
  } else Object.assign(inputs, { R_cable: source.fields.resistance, I_lim: source.fields.currentLimit })
  inputs['I_0'] = read.idle
  inputs[loadSymbol[load.kind]] = load.value
  if (load.wantedPower) inputs['P_want'] = load.wantedPower
  read.capacitors.forEach(({ fields }, k) => {
    inputs[`C_r${k + 1}`] = fields.capacitance
    inputs[`ESR_r${k + 1}`] = fields.seriesResistance
    inputs[`ESL_${k + 1}`] = fields.seriesInductance
  })
  if (logicRail) {
    const { forwardVoltage, forwardDrift, resistance, capacitance, current, peakCurrent } = logicRail.fields
    Object.assign(inputs, { I_mcu: current, I_peak: peakCurrent, C_h: capacitance })
    Object.assign(
      inputs,
      logicRail.behind === 'diode' ? { V_f: forwardVoltage, k_f: forwardDrift } : { R_iso: resistance },
    )
  }
  return inputs
}

/** Symbol of the switched load. */
export const loadSymbol = { current: 'I_step', resistor: 'R_L', power: 'P_L' } as const

type Columns = Readonly<Record<string, Float64Array>>

/** Builds the board in row `i` of the columns. */
export function boardRow(read: ReadDecoupling): Row<string> {
  const pathNames = ['R_cont', 'R_prot', 'R_sw', 'R_sens', 'R_conn', 'R_wire']
  const row = (c: Columns, i: number): Board => {
    const T = c['T_a']![i]!
    const years = c['Y_age']![i]!
    const worn = read.age.to > 0 ? years / read.age.to : 0
    const idle = c['I_0']![i]!
    const value = (name: string): number => c[name]?.[i] ?? 0
    let source: Source
    if (read.source.kind === 'cell') {
      const k_T = factorAt(read.source.temperature, T)
      const k_old = 1 + (value('k_old') - 1) * worn
      const resistance = pathNames.reduce((sum, name) => sum + value(name), value('R_cell') * k_T * k_old)
      source = { voltage: c['V_oc']![i]! - value('V_pol'), resistance, inductance: value('L') }
    } else {
      source = { voltage: c['V_oc']![i]!, resistance: value('R_cable'), inductance: 0, currentLimit: value('I_lim') }
    }
    const rest = source.voltage - source.resistance * idle
    const branches = read.capacitors.map((part, k) =>
      branchOf(part, value(`C_r${k + 1}`), value(`ESR_r${k + 1}`), value(`ESL_${k + 1}`), rest, T, years, worn),
    )
    return {
      source,
      protection: value('R_prot'),
      idle,
      load: loadOf(read, value(loadSymbol[read.load.kind])),
      wantedPower: value('P_want'),
      branches,
      ambientCelsius: T,
      forwardVoltage: Math.max(0, value('V_f') - value('k_f') * (T - 25)),
      logic: {
        resistance: value('R_iso'),
        capacitance: value('C_h'),
        current: value('I_mcu'),
        peak: Math.max(value('I_mcu'), value('I_peak')),
      },
    }
  }
  return row as unknown as Row<string>
}

function loadOf({ load }: ReadDecoupling, value: number): Load {
  if (load.kind === 'current') return { kind: 'current', current: value }
  return load.kind === 'resistor' ? { kind: 'resistor', resistance: value } : { kind: 'power', power: value }
}

const hoursPerYear = 8766

/** Factors of a kind of capacitor at a rail voltage, a temperature and an age. */
export function factorsOf(part: ReadCapacitor, volts: number, celsius: number, years: number, worn: number) {
  const { ageing: a_dec, wornCapacitance, wornResistance } = part.fields
  const left = ageing({ a_dec: a_dec.upper, t_age: Math.max(1, years * hoursPerYear), t_ref: 1 })
  return {
    k_bias: factorAt(part.bias, Math.max(0, volts)),
    k_temp: factorAt(part.temperature, celsius),
    k_age: left * (1 - (1 - wornCapacitance.lower) * worn),
    k_cold: factorAt(part.cold, celsius) * (1 + (wornResistance.upper - 1) * worn),
  }
}

function branchOf(
  part: ReadCapacitor,
  C_r: number,
  ESR_r: number,
  ESL: number,
  volts: number,
  celsius: number,
  years: number,
  worn: number,
): Branch {
  const factors = factorsOf(part, volts, celsius, years, worn)
  const n_C = part.count
  return {
    capacitance: effectiveCapacitance({ n_C, C_r, ...factors }),
    resistance: effectiveSeriesResistance({ ESR_r, n_C, ...factors }),
    inductance: ESL / n_C,
  }
}

/** A spread or number at its nominal value. */
export const nominalOf = (input: Input): number => (typeof input === 'number' ? input : (input as Spread).nominal)

/** The board with given values; every input that isn't given at its nominal value. */
export function boardAt(read: ReadDecoupling, inputs: InputSet, at: Readonly<Record<string, number>> = {}): Board {
  const columns: Record<string, Float64Array> = {}
  for (const [name, input] of Object.entries(inputs)) columns[name] = Float64Array.of(at[name] ?? nominalOf(input))
  return boardRow(read)(columns, 0) as unknown as Board
}
