import { formula } from '@ohmward/budget'

/** What is left of a class II ceramic's capacitance after a time: linear in decades of time. */
export const ageing = /*#__PURE__*/ formula({
  symbol: 'k_age',
  quantity: 'capacitance left by ageing',
  unit: '1',
  inputs: { a_dec: ['1', 0, 0.07], t_age: ['hour', 10, 1e5], t_ref: ['hour', 1, 9] },
  expression: '1 - a_dec * log(t_age / t_ref) / log(10)',
  compute: ({ a_dec, t_age, t_ref }) => 1 - (a_dec * Math.log(t_age / t_ref)) / Math.LN10,
  source:
    'common practice for class II ceramics: a share per decade of hours since the last heating, linear in decades',
})

/** Capacitance that acts, of all parts of one kind. */
export const effectiveCapacitance = /*#__PURE__*/ formula({
  symbol: 'C',
  quantity: 'acting capacitance',
  unit: 'F',
  inputs: {
    n_C: ['1', 1, 20],
    C_r: ['F', 1e-8, 1e-2],
    k_bias: ['1', 0.1, 1],
    k_temp: ['1', 0.3, 1.2],
    k_age: ['1', 0.6, 1],
  },
  expression: 'n_C * C_r * k_bias * k_temp * k_age',
  compute: ({ n_C, C_r, k_bias, k_temp, k_age }) => n_C * C_r * k_bias * k_temp * k_age,
  source: 'common practice: independent factors for dc bias, temperature and ageing',
})

/** Series resistance that acts, of all parts of one kind in parallel. */
export const effectiveSeriesResistance = /*#__PURE__*/ formula({
  symbol: 'ESR',
  quantity: 'acting series resistance',
  unit: 'ohm',
  inputs: { ESR_r: ['ohm', 1e-3, 5], k_cold: ['1', 1, 100], n_C: ['1', 1, 20] },
  expression: 'ESR_r * k_cold / n_C',
  compute: ({ ESR_r, k_cold, n_C }) => (ESR_r * k_cold) / n_C,
  source: 'equal parts in parallel',
})

/** Capacitance of two kinds side by side, for where the rail is slow against both. */
export const capacitanceOfTwo = /*#__PURE__*/ formula({
  symbol: 'C',
  quantity: 'acting capacitance of both kinds',
  unit: 'F',
  inputs: { C_1: ['F', 1e-8, 1e-2], C_2: ['F', 1e-8, 1e-2] },
  expression: 'C_1 + C_2',
  compute: ({ C_1, C_2 }) => C_1 + C_2,
  source: 'capacitors in parallel',
})

/** Series resistance of two kinds side by side, for where the rail is fast against both. */
export const seriesResistanceOfTwo = /*#__PURE__*/ formula({
  symbol: 'ESR',
  quantity: 'acting series resistance of both kinds',
  unit: 'ohm',
  inputs: { ESR_1: ['ohm', 1e-3, 5], ESR_2: ['ohm', 1e-3, 5] },
  expression: '1 / (1 / ESR_1 + 1 / ESR_2)',
  compute: ({ ESR_1, ESR_2 }) => 1 / (1 / ESR_1 + 1 / ESR_2),
  source: 'resistances in parallel',
})

/** Charge in a capacitance. */
export const charge = /*#__PURE__*/ formula({
  symbol: 'Q_C',
  quantity: 'charge',
  unit: 'C',
  inputs: { C: ['F', 1e-7, 1], V_oc: ['V', 1, 30] },
  expression: 'C * V_oc',
  compute: ({ C, V_oc }) => C * V_oc,
  source: 'definition of capacitance',
})

/** Energy in a capacitance. */
export const energy = /*#__PURE__*/ formula({
  symbol: 'E_C',
  quantity: 'stored energy',
  unit: 'J',
  inputs: { C: ['F', 1e-7, 1], V_oc: ['V', 1, 30] },
  expression: 'C * V_oc^2 / 2',
  compute: ({ C, V_oc }) => (C * V_oc * V_oc) / 2,
  source: 'energy of a capacitor',
})

/** Temperature rise of a capacitor by its ripple current. */
export const selfHeating = /*#__PURE__*/ formula({
  symbol: 'dT_C',
  quantity: 'self-heating of the capacitor',
  unit: 'K',
  inputs: { R_thC: ['K/W', 1, 200], I_C: ['A', 0.01, 10], ESR: ['ohm', 0.001, 1] },
  expression: 'R_thC * I_C^2 * ESR',
  compute: ({ R_thC, I_C, ESR }) => R_thC * I_C * I_C * ESR,
  source: 'Joule heat through a thermal resistance',
})

/** Life of an electrolytic capacitor: halved by each `dT_half` (10 K) above its rated temperature, doubled below. */
export const life = /*#__PURE__*/ formula({
  symbol: 't_life',
  quantity: 'expected life',
  unit: 'hour',
  inputs: { t_rated: ['hour', 500, 20000], dT_rated: ['K', -20, 80], dT_C: ['K', 0, 20], dT_half: ['K', 8, 12] },
  expression: 't_rated * 2^((dT_rated - dT_C) / dT_half)',
  compute: ({ t_rated, dT_rated, dT_C, dT_half }) => t_rated * 2 ** ((dT_rated - dT_C) / dT_half),
  source: 'common practice after Arrhenius: halved per 10 K',
})
