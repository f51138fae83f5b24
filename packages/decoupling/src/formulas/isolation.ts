import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const discharge = 'discharge of a capacitor by a constant current'

/** Forward voltage of the logic rail's diode at a temperature: a cold diode drops more, a hot one nothing at least. */
export const diodeDrop = /*#__PURE__*/ formula({
  symbol: 'V_fT',
  quantity: "drop of the logic rail's diode at its temperature",
  unit: 'V',
  inputs: { V_f: ['V', 0.1, 0.8], k_f: ['V/K', 0, 3e-3], T_a: ['degC', -40, 80], T_f: ['degC', 25, 25] },
  expression: 'max(V_f - V_f, V_f - k_f * (T_a - T_f))',
  compute: ({ V_f, k_f, T_a, T_f }) => Math.max(0, V_f - k_f * (T_a - T_f)),
  source: 'common practice: a forward voltage falls in a straight line with temperature',
  smooth: false,
})

/** Largest current of the logic rail: where no peak is stated, the mean. */
export const peakOfLogic = /*#__PURE__*/ formula({
  symbol: 'I_top',
  quantity: 'largest current of the logic rail',
  unit: 'A',
  inputs: { I_mcu: ['A', 1e-4, 0.5], I_peak: ['A', 0, 0.5] },
  expression: 'max(I_mcu, I_peak)',
  compute: ({ I_mcu, I_peak }) => Math.max(I_mcu, I_peak),
  source: 'definition: a peak is not below the mean',
  smooth: false,
})

/** Logic rail behind a diode after a time in which the raw rail doesn't feed it. */
export const heldVoltage = /*#__PURE__*/ formula({
  symbol: 'V_held',
  quantity: 'held logic voltage',
  unit: 'V',
  inputs: {
    V_rest: ['V', 3, 15],
    V_fT: ['V', 0.1, 0.8],
    I_top: ['A', 1e-4, 0.01],
    t_on: ['s', 1e-4, 0.1],
    C_h: ['F', 1e-3, 1e-2],
  },
  expression: 'V_rest - V_fT - I_top * t_on / C_h',
  compute: ({ V_rest, V_fT, I_top, t_on, C_h }) => V_rest - V_fT - (I_top * t_on) / C_h,
  source: discharge,
})

/** What e times the current adds to a diode's drop; `k_B` and `q_e` are exact in the SI. */
export const emissionVoltage = /*#__PURE__*/ formula({
  symbol: 'V_e',
  quantity: "emission coefficient times thermal voltage of the logic rail's diode",
  unit: 'V',
  inputs: {
    n_d: ['1', 1, 2],
    k_B: ['J/K', 1.3e-23, 1.4e-23],
    T_a: ['degC', -40, 80],
    T_0: ['degC', -273.15, -273.15],
    q_e: ['C', 1.6e-19, 1.61e-19],
  },
  expression: 'n_d * k_B * (T_a - T_0) / q_e',
  compute: ({ n_d, k_B, T_a, T_0, q_e }) => (n_d * k_B * (T_a - T_0)) / q_e,
  source: 'exponential law of the junction; constants as the SI defines them since 2019',
})

const V_e: InputRange = ['V', 0.02, 0.06]
const I_p: InputRange = ['A', 0.01, 5]
const r_d: InputRange = ['ohm', 0, 1]
const law = { V_fT: ['V', 0.1, 0.8], V_e, I_p, I_f: ['A', 1e-3, 0.5], r_d } as const

/** Drop of the logic rail's diode at the current in which PWM charges the capacitor behind it. */
export const pulseDrop = /*#__PURE__*/ formula({
  symbol: 'V_fp',
  quantity: "drop of the logic rail's diode at its pulses",
  unit: 'V',
  inputs: law,
  expression: 'V_fT + V_e * log(I_p / I_f) + r_d * (I_p - I_f)',
  compute: ({ V_fT, V_e, I_p, I_f, r_d }) => V_fT + V_e * Math.log(I_p / I_f) + r_d * (I_p - I_f),
  source: 'exponential law of the junction with a resistance in series, through one point of the data sheet',
})

/** Voltage at which the tangent of a diode's law meets no current. */
export const tangentThreshold = /*#__PURE__*/ formula({
  symbol: 'V_knee',
  quantity: "voltage from which the logic rail's diode conducts, by the tangent of its law",
  unit: 'V',
  inputs: law,
  expression: 'V_fT + V_e * (log(I_p / I_f) - 1) - r_d * I_f',
  compute: ({ V_fT, V_e, I_p, I_f, r_d }) => V_fT + V_e * (Math.log(I_p / I_f) - 1) - r_d * I_f,
  source: 'tangent of the exponential law at a current: nowhere below the law, whose logarithm bends down',
})

/** Slope of that tangent. */
export const tangentSlope = /*#__PURE__*/ formula({
  symbol: 'r_p',
  quantity: "resistance of the logic rail's diode while it conducts, by the tangent of its law",
  unit: 'ohm',
  inputs: { V_e, I_p, r_d },
  expression: 'V_e / I_p + r_d',
  compute: ({ V_e, I_p, r_d }) => V_e / I_p + r_d,
  source: 'slope of the exponential law at a current, and what is in series',
})

/** Hold-up capacitance behind a diode. */
export const holdUpCapacitance = /*#__PURE__*/ formula({
  symbol: 'C_hold',
  quantity: 'hold-up capacitance',
  unit: 'F',
  inputs: {
    I_top: ['A', 1e-4, 0.5],
    t_on: ['s', 1e-4, 5],
    V_rest: ['V', 4, 15],
    V_fT: ['V', 0.1, 0.8],
    V_low: ['V', 1, 3],
  },
  expression: 'I_top * t_on / (V_rest - V_fT - V_low)',
  compute: ({ I_top, t_on, V_rest, V_fT, V_low }) => (I_top * t_on) / (V_rest - V_fT - V_low),
  source: discharge,
})

/** Hold-up capacitance for a constant power between two voltages. */
export const holdUpByEnergy = /*#__PURE__*/ formula({
  symbol: 'C_energy',
  quantity: 'hold-up capacitance for a constant power',
  unit: 'F',
  inputs: { P_mcu: ['W', 1e-3, 50], t_on: ['s', 1e-4, 5], V_1: ['V', 5, 30], V_2: ['V', 1, 4.5] },
  expression: '2 * P_mcu * t_on / (V_1^2 - V_2^2)',
  compute: ({ P_mcu, t_on, V_1, V_2 }) => (2 * P_mcu * t_on) / (V_1 * V_1 - V_2 * V_2),
  source: 'energy of a capacitor',
})

/** Steady drop across the resistor of a logic rail. */
export const isolationDrop = /*#__PURE__*/ formula({
  symbol: 'V_iso',
  quantity: "drop across the logic rail's resistor",
  unit: 'V',
  inputs: { I_top: ['A', 1e-4, 0.5], R_iso: ['ohm', 0.1, 1000] },
  expression: 'I_top * R_iso',
  compute: ({ I_top, R_iso }) => I_top * R_iso,
  source: "Ohm's law",
})

/** Time constant of a logic rail behind a resistor. */
export const isolationTime = /*#__PURE__*/ formula({
  symbol: 'tau_iso',
  quantity: "time constant of the logic rail's filter",
  unit: 's',
  inputs: { R_iso: ['ohm', 0.1, 1000], C_h: ['F', 1e-7, 1e-2] },
  expression: 'R_iso * C_h',
  compute: ({ R_iso, C_h }) => R_iso * C_h,
  source: 'first-order filter',
})
