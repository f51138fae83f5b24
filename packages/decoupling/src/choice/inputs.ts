import type { Input } from '@ohmward/quantity'
import { spreadAt, sumOf } from '@ohmward/supply'
import type { ReadDecoupling } from './choice.js'

/** Inputs of the engines: parts by symbol, a number behind the symbols of each kind of capacitor. */
export type InputSet = Record<string, Input>

/** Conditions to cover: open-circuit voltage, temperature, age in years; frequency and duty of PWM where they have ranges. */
export const conditionsOf = ({ load: { pwm } }: ReadDecoupling): string[] => [
  'V_oc',
  'T_a',
  'Y_age',
  ...(isRange(pwm?.frequency) ? ['f_pwm'] : []),
  ...(isRange(pwm?.duty) ? ['D'] : []),
]

type Ends = { readonly from: number; readonly to: number }

const isRange = (ends: Ends | undefined): boolean => ends !== undefined && ends.from < ends.to

const range = ({ from, to }: Ends): Input =>
  from === to ? from : { nominal: (from + to) / 2, lower: from, upper: to, distribution: { kind: 'rectangular' } }

/** Every input of the choice. */
export function inputsOf(read: ReadDecoupling): InputSet {
  const inputs: InputSet = {
    V_oc: /*#__PURE__*/ range(read.openCircuit),
    T_a: /*#__PURE__*/ range(read.ambient),
    Y_age: /*#__PURE__*/ range(read.age),
  }
  const { source, load, logicRail } = read
  Object.assign(inputs, sourceInputs(source))
  inputs['I_0'] = read.idle
  inputs[loadSymbol[load.kind]] = load.value
  if (load.wantedPower) inputs['P_want'] = load.wantedPower
  if (load.pwm && isRange(load.pwm.frequency)) inputs['f_pwm'] = range(load.pwm.frequency)
  if (load.pwm && isRange(load.pwm.duty)) inputs['D'] = range(load.pwm.duty)
  read.capacitors.forEach(({ fields }, k) => {
    inputs[`C_r${k + 1}`] = fields.capacitance
    inputs[`ESR_r${k + 1}`] = fields.seriesResistance
    inputs[`ESL_${k + 1}`] = fields.seriesInductance
  })
  if (logicRail) {
    const { forwardVoltage, forwardDrift, emission, slopeResistance, resistance, capacitance, current, peakCurrent } =
      logicRail.fields
    Object.assign(inputs, { I_mcu: current, I_peak: peakCurrent, C_h: capacitance })
    Object.assign(
      inputs,
      logicRail.behind === 'diode'
        ? { V_f: forwardVoltage, k_f: forwardDrift, n_d: emission, r_d: slopeResistance }
        : { R_iso: resistance },
    )
  }
  return inputs
}

/** Symbol of an element of the path at 20 °C, by its place: `R_1`. */
export const elementSymbol = (k: number): string => `R_${k + 1}`

/** Inputs of the source: of a cell, of a port or plain numbers, and each element of the path. */
function sourceInputs(source: ReadDecoupling['source']): InputSet {
  const { path, inductance, currentLimit } = source
  const inputs: InputSet = {}
  if (source.kind === 'cell') inputs['R_cell'] = source.cell.resistance
  else if (source.kind === 'port') inputs['R_lead'] = source.leadResistance
  else inputs['R_s'] = source.resistance
  path.forEach(({ resistance, temperatureCoefficient: alpha }, k) => {
    if (resistance.upper > 0) inputs[elementSymbol(k)] = resistance
    if (typeof alpha === 'object' && alpha.lower < alpha.upper) inputs[`alpha_${k + 1}`] = alpha
  })
  if (source.kind === 'cell') {
    inputs['k_old'] = source.cell.ageFactor
    // Furthest off the curve at the emptiest, where the resistance read from the charge matters most.
    if (source.isByCharge) inputs['e_oc'] = spreadAt(source.cell, source.charge.from)
  }
  if (path.some(({ drop }) => drop.upper > 0)) inputs['V_drop'] = sumOf(path.map(({ drop }) => drop))
  inputs['L'] = inductance
  if (currentLimit !== undefined) inputs['I_lim'] = currentLimit
  return inputs
}

/** Symbol of the switched load. */
export const loadSymbol = { current: 'I_step', resistor: 'R_L', power: 'P_L' } as const
