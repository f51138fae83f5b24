import { formula } from '@ohmward/budget/formula'

/** Ripple current of one part of a kind: equal parts share it. */
export const rippleOfOne = /*#__PURE__*/ formula({
  symbol: 'I_C',
  quantity: 'ripple current of one part',
  unit: 'A',
  inputs: { I_kind: ['A', 0.01, 100], n_C: ['1', 1, 20] },
  expression: 'I_kind / n_C',
  compute: ({ I_kind, n_C }) => I_kind / n_C,
  source: 'equal parts in parallel',
})

/** Series resistance of one part of a kind, cold and aged. */
export const resistanceOfOne = /*#__PURE__*/ formula({
  symbol: 'ESR_one',
  quantity: 'series resistance of one part',
  unit: 'ohm',
  inputs: { ESR: ['ohm', 0.001, 1], n_C: ['1', 1, 20] },
  expression: 'ESR * n_C',
  compute: ({ ESR, n_C }) => ESR * n_C,
  source: 'equal parts in parallel',
})

/** Temperature rise of a capacitor by its ripple current. */
export const selfHeating = /*#__PURE__*/ formula({
  symbol: 'dT_C',
  quantity: 'self-heating of the capacitor',
  unit: 'K',
  inputs: { R_thC: ['K/W', 1, 200], I_C: ['A', 0.01, 10], ESR_one: ['ohm', 0.001, 1] },
  expression: 'R_thC * I_C^2 * ESR_one',
  compute: ({ R_thC, I_C, ESR_one }) => R_thC * I_C * I_C * ESR_one,
  source: 'Joule heat through a thermal resistance',
})

/** How far the air is below the temperature for which a capacitor's life is rated. */
export const belowRated = /*#__PURE__*/ formula({
  symbol: 'dT_rated',
  quantity: 'ambient below the rated temperature',
  unit: 'K',
  inputs: { T_rated: ['degC', 85, 150], T_a: ['degC', -40, 80] },
  expression: 'T_rated - T_a',
  compute: ({ T_rated, T_a }) => T_rated - T_a,
  source: 'definition',
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
