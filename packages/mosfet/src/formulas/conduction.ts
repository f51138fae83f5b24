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

/**
 * How low a lot may stand: as far below typical as the guaranteed maximum lies above, but never under a share of typical.
 */
export const lowestLot = /*#__PURE__*/ formula({
  symbol: 'q_low',
  quantity: 'where the best lot stands',
  unit: '1',
  inputs: { a_low: ['1', 0, 1], R_typ: ['ohm', 1e-4, 0.1], R_gua: ['ohm', 0.11, 1] },
  expression: 'max((a_low - 1) * R_typ / (R_gua - R_typ), -1)',
  compute: ({ a_low, R_typ, R_gua }) => Math.max(((a_low - 1) * R_typ) / (R_gua - R_typ), -1),
  source: 'a data sheet states no smallest on-resistance: the span above typical, mirrored; floor of the model',
  smooth: false,
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

/** What one of several equal devices carries. */
export const deviceCurrent = /*#__PURE__*/ formula({
  symbol: 'I_D',
  quantity: 'drain current of one device, with an ideal switch',
  unit: 'A',
  inputs: { I_max: ['A', 0.01, 100], n: ['1', 1, 8] },
  expression: 'I_max / n',
  compute: ({ I_max, n }) => I_max / n,
  source: 'equal devices share equally',
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
