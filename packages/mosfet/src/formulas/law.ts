import { at, formula, type InputRange, type Values } from '@ohmward/budget'

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
