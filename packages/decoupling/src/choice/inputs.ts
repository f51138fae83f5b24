import type { Input } from '@ohmward/quantity'
import type { ReadDecoupling } from './choice.js'

/** Inputs of the engines: parts by symbol, a number behind the symbols of each kind of capacitor. */
export type InputSet = Record<string, Input>

/** Conditions to cover: open-circuit voltage, temperature, age in years. */
export const conditionNames = ['V_oc', 'T_a', 'Y_age'] as const

const range = ({ from, to }: { from: number; to: number }): Input =>
  from === to ? from : { nominal: (from + to) / 2, lower: from, upper: to, distribution: { kind: 'rectangular' } }

/** Every input of the choice. */
export function inputsOf(read: ReadDecoupling): InputSet {
  const inputs: InputSet = {
    V_oc: /*#__PURE__*/ range(read.openCircuit),
    T_a: /*#__PURE__*/ range(read.ambient),
    Y_age: /*#__PURE__*/ range(read.age),
  }
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

/** Symbol of the switched load. */
export const loadSymbol = { current: 'I_step', resistor: 'R_L', power: 'P_L' } as const
