import { formula, type InputRange } from '@ohmward/budget'

const R_p: InputRange = ['ohm', 100, 1e7]
const leakage: InputRange = ['A', 0, 1e-6]

/** Lowest threshold when hot: it falls by a few millivolts for each kelvin. */
export const hotThreshold = /*#__PURE__*/ formula({
  symbol: 'V_thhot',
  quantity: 'threshold, hot',
  unit: 'V',
  inputs: { V_th: ['V', 1, 4], k_th: ['V/K', 0, 4e-3], T_hot: ['degC', 30, 125], T_25: ['degC', 20, 30] },
  expression: 'V_th - k_th * (T_hot - T_25)',
  compute: ({ V_th, k_th, T_hot, T_25 }) => V_th - k_th * (T_hot - T_25),
  source: 'data sheet: threshold against junction temperature',
})

/** Gate level while the controller resets and its pin is pulled weakly the wrong way. Pitfall H08. */
export const resetLevel = /*#__PURE__*/ formula({
  symbol: 'V_reset',
  quantity: 'gate-source voltage during reset',
  unit: 'V',
  inputs: { V_weak: ['V', 0, 6], R_weak: ['ohm', 1e4, 1e6], R_p, I_leak: leakage },
  expression: 'V_weak * R_p / (R_weak + R_p) + I_leak * R_weak * R_p / (R_weak + R_p)',
  compute: ({ V_weak, R_weak, R_p, I_leak }) =>
    (V_weak * R_p) / (R_weak + R_p) + (I_leak * R_weak * R_p) / (R_weak + R_p),
  source: 'Kirchhoff',
})

/** Gate level that leakage makes across the resistor that holds the gate off. */
export const leakageLevel = /*#__PURE__*/ formula({
  symbol: 'V_hold0',
  quantity: 'gate-source voltage from leakage',
  unit: 'V',
  inputs: { I_leak: leakage, R_p },
  expression: 'I_leak * R_p',
  compute: ({ I_leak, R_p }) => I_leak * R_p,
  source: 'Ohm',
})

/** What stays between gate and source of a P-channel transistor whose pin reaches only `V_high`. */
export const pinOffLevel = /*#__PURE__*/ formula({
  symbol: 'V_off',
  quantity: 'gate-source voltage, switched off',
  unit: 'V',
  inputs: { V_oc: ['V', 3, 20], V_high: ['V', 1, 2.5] },
  expression: 'V_oc - V_high',
  compute: ({ V_oc, V_high }) => V_oc - V_high,
  source: 'Kirchhoff, rail at rest',
})

/** Base voltage of the inverting transistor while the controller resets and its pin is pulled up weakly. */
export const resetBase = /*#__PURE__*/ formula({
  symbol: 'V_base',
  quantity: 'base voltage during reset',
  unit: 'V',
  inputs: {
    V_weak: ['V', 0, 6],
    R_be: ['ohm', 100, 1e6],
    R_weak: ['ohm', 1e4, 1e6],
    R_b: ['ohm', 10, 1e6],
    I_leak: leakage,
  },
  expression: 'V_weak * R_be / (R_weak + R_b + R_be) + I_leak * R_be',
  compute: ({ V_weak, R_be, R_weak, R_b, I_leak }) => (V_weak * R_be) / (R_weak + R_b + R_be) + I_leak * R_be,
  source: 'Kirchhoff',
})

/** Gate level that a fast edge of the drain couples through the reverse capacitance. */
export const coupledLevel = /*#__PURE__*/ formula({
  symbol: 'V_cpl',
  quantity: 'gate-source voltage coupled by a drain edge',
  unit: 'V',
  inputs: {
    R_goff: ['ohm', 1, 1e7],
    C_gd: ['F', 1e-12, 1e-9],
    V_step: ['V', 0.5, 60],
    t_step: ['s', 1e-8, 1e-3],
    C_iss: ['F', 1e-10, 1e-8],
  },
  expression: 'R_goff * C_gd * V_step / t_step * (1 - exp(-t_step / (R_goff * C_iss)))',
  compute: ({ R_goff, C_gd, V_step, t_step, C_iss }) =>
    ((R_goff * C_gd * V_step) / t_step) * -Math.expm1(-t_step / (R_goff * C_iss)),
  source: 'ramp through C_gd into R beside C_iss = C_gs + C_gd',
})
