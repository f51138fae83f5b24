import { formula, type InputRange } from '@ohmward/budget'

const R_on: InputRange = ['ohm', 1e-4, 1]

/**
 * Cold on-resistance of one device. `q_R` is where the lot stands: 0 typical, 1 the guaranteed maximum, -1 as far below
 * typical as the maximum is above.
 */
export const coldResistance = /*#__PURE__*/ formula({
  symbol: 'R_on',
  quantity: 'on-resistance at the reference temperature',
  unit: 'ohm',
  inputs: { R_typ: ['ohm', 1e-4, 1], q_R: ['1', -1, 1], R_gua: ['ohm', 1e-4, 1] },
  expression: 'R_typ + q_R * (R_gua - R_typ)',
  compute: ({ R_typ, q_R, R_gua }) => R_typ + q_R * (R_gua - R_typ),
  source: 'data sheet: typical and guaranteed R_DS(on); the span below typical is taken like that above',
})

/** Temperature factor of the on-resistance, linear. */
export const linearFactor = /*#__PURE__*/ formula({
  symbol: 'rho',
  quantity: 'temperature factor of the on-resistance',
  unit: '1',
  inputs: { a_R: ['1/K', 0, 0.008], T_j: ['degC', -40, 250], T_ref: ['degC', 20, 30] },
  expression: '1 + a_R * (T_j - T_ref)',
  compute: ({ a_R, T_j, T_ref }) => 1 + a_R * (T_j - T_ref),
  source: 'slope of the data sheet’s curve; 0.4 to 0.5 % for each kelvin where there is none, common practice',
})

/** Temperature factor of the on-resistance as a power of the absolute temperature; `T_0` is absolute zero. */
export const powerFactor = /*#__PURE__*/ formula({
  symbol: 'rho',
  quantity: 'temperature factor of the on-resistance',
  unit: '1',
  inputs: {
    T_j: ['degC', -40, 250],
    T_0: ['degC', -273.15, -273.15],
    T_ref: ['degC', 20, 30],
    m_R: ['1', 1, 5],
  },
  expression: '((T_j - T_0) / (T_ref - T_0))^m_R',
  compute: ({ T_j, T_0, T_ref, m_R }) => ((T_j - T_0) / (T_ref - T_0)) ** m_R,
  source: 'mobility of the carriers: a power of the absolute temperature, 1.5 to 2.5 in silicon; common practice',
})

/** On-resistance of one device at the junction's temperature. */
export const hotResistance = /*#__PURE__*/ formula({
  symbol: 'R_hot',
  quantity: 'on-resistance, hot',
  unit: 'ohm',
  inputs: { R_on, rho: ['1', 0.3, 10] },
  expression: 'R_on * rho',
  compute: ({ R_on, rho }) => R_on * rho,
  source: 'data sheet: normalised on-resistance against junction temperature',
})

/** Load current with the hot transistors in series, `n` of them in parallel. */
export const loadCurrent = /*#__PURE__*/ formula({
  symbol: 'I',
  quantity: 'load current',
  unit: 'A',
  inputs: {
    V_oc: ['V', 1, 60],
    R_s: ['ohm', 0, 1],
    R_L: ['ohm', 0.05, 100],
    R_sh: ['ohm', 0, 0.1],
    R_hot: ['ohm', 1e-4, 1],
    n: ['1', 1, 8],
  },
  expression: 'V_oc / (R_s + R_L + R_sh + R_hot / n)',
  compute: ({ V_oc, R_s, R_L, R_sh, R_hot, n }) => V_oc / (R_s + R_L + R_sh + R_hot / n),
  source: 'Ohm',
})

/** The same where the load holds its current. */
export const heldCurrent = /*#__PURE__*/ formula({
  symbol: 'I',
  quantity: 'load current, held by the load',
  unit: 'A',
  inputs: { I_set: ['A', 0.01, 100] },
  expression: 'I_set',
  compute: ({ I_set }) => I_set,
  source: 'constant-current load',
})

/** Root mean square of a current in pulses. */
export const pulsedCurrent = /*#__PURE__*/ formula({
  symbol: 'I_rms',
  quantity: 'root mean square of the load current',
  unit: 'A',
  inputs: { I: ['A', 0, 100], D: ['1', 0, 1] },
  expression: 'I * sqrt(D)',
  compute: ({ I, D }) => I * Math.sqrt(D),
  source: 'mean square of a rectangular pulse',
})

/** Conduction loss of one device of `n` that share the current equally. */
export const conductionLoss = /*#__PURE__*/ formula({
  symbol: 'P_cond',
  quantity: 'conduction loss of one device',
  unit: 'W',
  inputs: { I: ['A', 0.01, 100], n: ['1', 1, 8], D: ['1', 0, 1], R_hot: ['ohm', 1e-4, 1] },
  expression: '(I / n)^2 * D * R_hot',
  compute: ({ I, n, D, R_hot }) => (I / n) ** 2 * D * R_hot,
  source: 'Joule',
})
