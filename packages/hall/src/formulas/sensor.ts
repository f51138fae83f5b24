import { formula } from '@ohmward/budget/formula'

const sheet = 'definitions of zero, sensitivity, their drift and ratiometry in current-sensor data sheets'

/**
 * Zero output of a ratiometric sensor: it follows its supply. `m_q` is what is missing of that, as a share, at
 * either end of the rated supply. Pitfalls E03, E04.
 */
export const ratiometricZero = /*#__PURE__*/ formula({
  symbol: 'V_q',
  quantity: 'zero-current output',
  unit: 'V',
  inputs: {
    V_q0: ['V', 0.1, 5],
    V_oe: ['V', -0.1, 0.1],
    D_oe: ['V/K', -1e-3, 1e-3],
    T_d: ['K', -65, 125],
    m_q: ['1', -0.1, 0.1],
    x_s: ['1', -3, 3],
    r_s: ['1', 0.5, 2],
  },
  expression: '(V_q0 * (1 + m_q * x_s) + V_oe + D_oe * T_d) * r_s',
  compute: ({ V_q0, V_oe, D_oe, T_d, m_q, x_s, r_s }) => (V_q0 * (1 + m_q * x_s) + V_oe + D_oe * T_d) * r_s,
  source: sheet,
})

/** Zero output of a sensor that keeps it whatever the supply; `m_q` is what the supply shifts it nevertheless, at either end. */
export const fixedZero = /*#__PURE__*/ formula({
  symbol: 'V_q',
  quantity: 'zero-current output',
  unit: 'V',
  inputs: {
    V_q0: ['V', 0.1, 5],
    V_oe: ['V', -0.1, 0.1],
    D_oe: ['V/K', -1e-3, 1e-3],
    T_d: ['K', -65, 125],
    m_q: ['1', -0.1, 0.1],
    x_s: ['1', -3, 3],
  },
  expression: 'V_q0 * (1 + m_q * x_s) + V_oe + D_oe * T_d',
  compute: ({ V_q0, V_oe, D_oe, T_d, m_q, x_s }) => V_q0 * (1 + m_q * x_s) + V_oe + D_oe * T_d,
  source: sheet,
})

/** Sensitivity of a ratiometric sensor at its temperature and supply, aged, with what else its data sheet states. */
export const ratiometricSensitivity = /*#__PURE__*/ formula({
  symbol: 'S',
  quantity: 'sensitivity',
  unit: 'V/A',
  inputs: {
    S_0: ['V/A', 1e-3, 1],
    e_S: ['1', -0.1, 0.1],
    e_Sa: ['1', -0.1, 0.1],
    e_add: ['1', -0.1, 0.1],
    TC_S: ['1/K', -1e-3, 1e-3],
    T_d: ['K', -65, 125],
    m_S: ['1', -0.1, 0.1],
    x_s: ['1', -3, 3],
    r_s: ['1', 0.5, 2],
  },
  expression: 'S_0 * (1 + e_S + e_Sa + e_add + TC_S * T_d + m_S * x_s) * r_s',
  compute: ({ S_0, e_S, e_Sa, e_add, TC_S, T_d, m_S, x_s, r_s }) =>
    S_0 * (1 + e_S + e_Sa + e_add + TC_S * T_d + m_S * x_s) * r_s,
  source: sheet,
})

/** Sensitivity of a sensor that keeps it whatever the supply. */
export const fixedSensitivity = /*#__PURE__*/ formula({
  symbol: 'S',
  quantity: 'sensitivity',
  unit: 'V/A',
  inputs: {
    S_0: ['V/A', 1e-3, 1],
    e_S: ['1', -0.1, 0.1],
    e_Sa: ['1', -0.1, 0.1],
    e_add: ['1', -0.1, 0.1],
    TC_S: ['1/K', -1e-3, 1e-3],
    T_d: ['K', -65, 125],
    m_S: ['1', -0.1, 0.1],
    x_s: ['1', -3, 3],
  },
  expression: 'S_0 * (1 + e_S + e_Sa + e_add + TC_S * T_d + m_S * x_s)',
  compute: ({ S_0, e_S, e_Sa, e_add, TC_S, T_d, m_S, x_s }) => S_0 * (1 + e_S + e_Sa + e_add + TC_S * T_d + m_S * x_s),
  source: sheet,
})

/** Output shift of a ratiometric sensor at its supply. */
export const ratiometricShift = /*#__PURE__*/ formula({
  symbol: 'V_es',
  quantity: 'shift of the output',
  unit: 'V',
  inputs: { V_e: ['V', -0.5, 0.5], r_s: ['1', 0.5, 2] },
  expression: 'V_e * r_s',
  compute: ({ V_e, r_s }) => V_e * r_s,
  source: sheet,
})

/** Output shift of a sensor whose sensitivity keeps whatever the supply. */
export const fixedShift = /*#__PURE__*/ formula({
  symbol: 'V_es',
  quantity: 'shift of the output',
  unit: 'V',
  inputs: { V_e: ['V', -0.5, 0.5] },
  expression: 'V_e',
  compute: ({ V_e }) => V_e,
  source: sheet,
})

/** Zero that the firmware takes for granted of a ratiometric sensor, at the nominal supply. */
export const nominalZero = /*#__PURE__*/ formula({
  symbol: 'V_qn',
  quantity: 'zero-current output, as the firmware assumes it',
  unit: 'V',
  inputs: { V_q0: ['V', 0.1, 5], r_s: ['1', 0.5, 2] },
  expression: 'V_q0 * r_s',
  compute: ({ V_q0, r_s }) => V_q0 * r_s,
  source: sheet,
})

/** Sensitivity that the firmware takes for granted of a ratiometric sensor, at the nominal supply. */
export const nominalSensitivity = /*#__PURE__*/ formula({
  symbol: 'S_n',
  quantity: 'sensitivity, as the firmware assumes it',
  unit: 'V/A',
  inputs: { S_0: ['V/A', 1e-3, 1], r_s: ['1', 0.5, 2] },
  expression: 'S_0 * r_s',
  compute: ({ S_0, r_s }) => S_0 * r_s,
  source: sheet,
})
