import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const V_T: InputRange = ['V', 0.018, 0.036]

/** Thermal voltage; `k_B` and `q_e` are exact in the SI. */
export const thermalVoltage = /*#__PURE__*/ formula({
  symbol: 'V_T',
  quantity: 'thermal voltage',
  unit: 'V',
  inputs: { k_B: ['J/K', 1.3e-23, 1.4e-23], T_abs: ['K', 200, 400], q_e: ['C', 1.6e-19, 1.61e-19] },
  expression: 'k_B * T_abs / q_e',
  compute: ({ k_B, T_abs, q_e }) => (k_B * T_abs) / q_e,
  source: 'exponential law of the junction; constants as the SI defines them since 2019',
})

/** Forward voltage of a diode at a current and temperature, from one point of its data sheet. Pitfalls J05, J06. */
export const forwardVoltage = /*#__PURE__*/ formula({
  symbol: 'V_f',
  quantity: 'forward voltage',
  unit: 'V',
  inputs: {
    V_f0: ['V', 0.3, 1],
    n_f: ['1', 1, 2],
    V_T,
    I_f: ['A', 1e-5, 1],
    I_f0: ['A', 1e-4, 1],
    k_f: ['V/K', 0, 0.003],
    dT_f: ['K', -60, 60],
  },
  expression: 'V_f0 + n_f * V_T * log(I_f / I_f0) - k_f * dT_f',
  compute: ({ V_f0, n_f, V_T, I_f, I_f0, k_f, dT_f }) => V_f0 + n_f * V_T * Math.log(I_f / I_f0) - k_f * dT_f,
  source: 'exponential law of the junction; temperature as a straight line',
})

/** Emission coefficient of a diode from two points of its data sheet. */
export const emissionCoefficient = /*#__PURE__*/ formula({
  symbol: 'n_f',
  quantity: 'emission coefficient',
  unit: '1',
  inputs: { V_f0: ['V', 0.2, 0.4], V_f1: ['V', 0.5, 1], V_T, I_f0: ['A', 1e-4, 1e-2], I_f1: ['A', 0.1, 1] },
  expression: '(V_f1 - V_f0) / (V_T * log(I_f1 / I_f0))',
  compute: ({ V_f0, V_f1, V_T, I_f0, I_f1 }) => (V_f1 - V_f0) / (V_T * Math.log(I_f1 / I_f0)),
  source: 'exponential law of the junction at two currents',
})

/** Rail behind a diode that conducts. */
export const diodeRail = /*#__PURE__*/ formula({
  symbol: 'V_log',
  quantity: 'rail behind the diode',
  unit: 'V',
  inputs: { V_raw: ['V', 2, 15], V_f: ['V', 0, 1] },
  expression: 'V_raw - V_f',
  compute: ({ V_raw, V_f }) => V_raw - V_f,
  source: "Kirchhoff's voltage law",
})
