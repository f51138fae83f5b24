import { formula } from '@ohmward/budget'

const sheet = 'definitions of zero, sensitivity, their drift and ratiometry in current-sensor data sheets'

/** Supply over the supply at which the data sheet states zero and sensitivity. */
export const supplyRatio = /*#__PURE__*/ formula({
  symbol: 'r_s',
  quantity: 'supply over rated supply',
  unit: '1',
  inputs: { V_s: ['V', 1, 30], V_s0: ['V', 1, 30] },
  expression: 'V_s / V_s0',
  compute: ({ V_s, V_s0 }) => V_s / V_s0,
  source: 'definition',
})

/**
 * Zero output of a ratiometric sensor: it follows its supply. `m_q` is what is missing of that, as a share for each unit
 * of `r_s`. Pitfalls E03, E04.
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
    r_s: ['1', 0.5, 2],
  },
  expression: '(V_q0 * (1 + m_q * (r_s - 1)) + V_oe + D_oe * T_d) * r_s',
  compute: ({ V_q0, V_oe, D_oe, T_d, m_q, r_s }) => (V_q0 * (1 + m_q * (r_s - 1)) + V_oe + D_oe * T_d) * r_s,
  source: sheet,
})

/** Zero output of a sensor that keeps it whatever the supply; `m_q` is what the supply shifts it nevertheless. */
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
    r_s: ['1', 0.5, 2],
  },
  expression: 'V_q0 * (1 + m_q * (r_s - 1)) + V_oe + D_oe * T_d',
  compute: ({ V_q0, V_oe, D_oe, T_d, m_q, r_s }) => V_q0 * (1 + m_q * (r_s - 1)) + V_oe + D_oe * T_d,
  source: sheet,
})

/** Sensitivity of a ratiometric sensor at its temperature and supply. */
export const ratiometricSensitivity = /*#__PURE__*/ formula({
  symbol: 'S',
  quantity: 'sensitivity',
  unit: 'V/A',
  inputs: {
    S_0: ['V/A', 1e-3, 1],
    e_S: ['1', -0.1, 0.1],
    TC_S: ['1/K', -1e-3, 1e-3],
    T_d: ['K', -65, 125],
    m_S: ['1', -0.1, 0.1],
    r_s: ['1', 0.5, 2],
  },
  expression: 'S_0 * (1 + e_S + TC_S * T_d + m_S * (r_s - 1)) * r_s',
  compute: ({ S_0, e_S, TC_S, T_d, m_S, r_s }) => S_0 * (1 + e_S + TC_S * T_d + m_S * (r_s - 1)) * r_s,
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
    TC_S: ['1/K', -1e-3, 1e-3],
    T_d: ['K', -65, 125],
    m_S: ['1', -0.1, 0.1],
    r_s: ['1', 0.5, 2],
  },
  expression: 'S_0 * (1 + e_S + TC_S * T_d + m_S * (r_s - 1))',
  compute: ({ S_0, e_S, TC_S, T_d, m_S, r_s }) => S_0 * (1 + e_S + TC_S * T_d + m_S * (r_s - 1)),
  source: sheet,
})

/** What shifts the output beside zero and current, at the rated supply: nonlinearity, hysteresis, fields, noise. */
export const outputShift = /*#__PURE__*/ formula({
  symbol: 'V_e',
  quantity: 'shift of the output, referred to the rated supply',
  unit: 'V',
  inputs: {
    V_L: ['V', -0.1, 0.1],
    V_h: ['V', -0.1, 0.1],
    V_B: ['V', -0.1, 0.1],
    V_nb: ['V', -0.1, 0.1],
    V_n: ['V', -0.1, 0.1],
  },
  expression: 'V_L + V_h + V_B + V_nb + V_n',
  compute: ({ V_L, V_h, V_B, V_nb, V_n }) => V_L + V_h + V_B + V_nb + V_n,
  source: 'superposition',
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
