import { formula } from '@ohmward/budget'

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

/** Logic rail behind a diode under PWM: fed at the peaks of the rail, alone for a period at most. */
export const heldInPwm = /*#__PURE__*/ formula({
  symbol: 'V_heldP',
  quantity: 'held logic voltage under PWM',
  unit: 'V',
  inputs: {
    V_high: ['V', 3, 15],
    V_fT: ['V', 0.1, 0.8],
    I_top: ['A', 1e-4, 0.01],
    T_pwm: ['s', 1e-5, 1e-2],
    C_h: ['F', 1e-3, 1e-2],
  },
  expression: 'V_high - V_fT - I_top * T_pwm / C_h',
  compute: ({ V_high, V_fT, I_top, T_pwm, C_h }) => V_high - V_fT - (I_top * T_pwm) / C_h,
  source: discharge,
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
