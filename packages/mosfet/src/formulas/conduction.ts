import type { InputRange, Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

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
  quantity: 'position of the best lot in the spread',
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

/** Most that one of several devices carries, whose on-resistance may stand as low as `x_low` of the others'. */
export const deviceCurrent = /*#__PURE__*/ formula({
  symbol: 'I_D',
  quantity: 'largest drain current of one device, of an ideal switch’s current',
  unit: 'A',
  inputs: { I_max: ['A', 0.01, 100], n: ['1', 1, 8], x_low: ['1', 0.05, 1] },
  expression: 'I_max / (1 + (n - 1) * x_low)',
  compute: ({ I_max, n, x_low }) => I_max / (1 + (n - 1) * x_low),
  source: 'current divider; each at the resistance of its own lot, heat left out, which evens them',
})

/**
 * Most that one of several devices dissipates, over an equal share, where its on-resistance may stand as low as `x_low` of
 * the others': it draws more current, and up to `1 / (n - 1)` that outweighs its smaller resistance. Two never differ.
 */
export const unevenLoss = /*#__PURE__*/ formula({
  symbol: 'k_n',
  quantity: 'loss of the hottest of several devices, over an equal share',
  unit: '1',
  inputs: { n: ['1', 2, 8], x_low: ['1', 0.05, 1] },
  expression: 'n^2 * max(x_low, 1 / (n - 1)) / (1 + (n - 1) * max(x_low, 1 / (n - 1)))^2',
  compute: ({ n, x_low }) => {
    const x = Math.max(x_low, 1 / (n - 1))
    return (n ** 2 * x) / (1 + (n - 1) * x) ** 2
  },
  source: 'current divider; each at the resistance of its own lot, heat left out, which evens them',
  smooth: false,
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

const T_j: InputRange = ['degC', -40, 250]

/** Temperature factor of the on-resistance, linear. */
export const linearFactor = /*#__PURE__*/ formula({
  symbol: 'rho',
  quantity: 'temperature factor of the on-resistance',
  unit: '1',
  inputs: { a_R: ['1/K', 0, 0.008], T_j, T_ref: ['degC', 20, 30] },
  expression: '1 + a_R * (T_j - T_ref)',
  compute: ({ a_R, T_j, T_ref }) => 1 + a_R * (T_j - T_ref),
  source: 'slope of the data sheet’s curve; 0.4 to 0.5 % for each kelvin where there is none, common practice',
})

/** Temperature factor of the on-resistance as a power of the absolute temperature; `T_0` is absolute zero. */
export const powerFactor = /*#__PURE__*/ formula({
  symbol: 'rho',
  quantity: 'temperature factor of the on-resistance',
  unit: '1',
  inputs: { T_j, T_0: ['degC', -273.15, -273.15], T_ref: ['degC', 20, 30], m_R: ['1', 1, 5] },
  expression: '((T_j - T_0) / (T_ref - T_0))^m_R',
  compute: ({ T_j, T_0, T_ref, m_R }) => ((T_j - T_0) / (T_ref - T_0)) ** m_R,
  source: 'mobility of the carriers: a power of the absolute temperature, 1.5 to 2.5 in silicon; common practice',
})

/** Temperature factor of the on-resistance between two points of the data sheet’s curve, or beyond its last two. */
export const curveFactor = /*#__PURE__*/ formula({
  symbol: 'rho',
  quantity: 'temperature factor of the on-resistance',
  unit: '1',
  inputs: {
    rho_1: ['1', 0.7, 1],
    rho_2: ['1', 1, 2],
    T_1: ['degC', -55, 20],
    T_2: ['degC', 30, 175],
    T_j,
  },
  expression: 'rho_1 + (rho_2 - rho_1) / (T_2 - T_1) * (T_j - T_1)',
  compute: ({ rho_1, rho_2, T_1, T_2, T_j }) => rho_1 + ((rho_2 - rho_1) / (T_2 - T_1)) * (T_j - T_1),
  source: 'data sheet: normalised on-resistance against junction temperature, straight between points',
})

const top = { quantity: 'temperature factor at the junction limit' }

/** The linear factor with the junction at its limit. */
export const limitLinear = /*#__PURE__*/ at(
  linearFactor,
  'rho_top',
  (x: Values<'a_R' | 'T_lim' | 'T_ref'>) => ({ a_R: x.a_R, T_j: x.T_lim, T_ref: x.T_ref }),
  top,
)

/** The power with the junction at its limit. */
export const limitPower = /*#__PURE__*/ at(
  powerFactor,
  'rho_top',
  (x: Values<'T_lim' | 'T_0' | 'T_ref' | 'm_R'>) => ({ T_j: x.T_lim, T_0: x.T_0, T_ref: x.T_ref, m_R: x.m_R }),
  top,
)

/** The curve with the junction at its limit, between the points `3` and `4`. */
export const limitCurve = /*#__PURE__*/ at(
  curveFactor,
  'rho_top',
  (x: Values<'rho_3' | 'rho_4' | 'T_3' | 'T_4' | 'T_lim'>) => ({
    rho_1: x.rho_3,
    rho_2: x.rho_4,
    T_1: x.T_3,
    T_2: x.T_4,
    T_j: x.T_lim,
  }),
  top,
)
