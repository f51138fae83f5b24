import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const V_rated: InputRange = ['V', 1, 60]

/** Resistance at work of a load that is rated by its power. */
export const resistanceByPower = /*#__PURE__*/ formula({
  symbol: 'R_work',
  quantity: 'resistance of the load at work, by its rated power',
  unit: 'ohm',
  inputs: { V_rated, P_rated: ['W', 0.1, 200] },
  expression: 'V_rated^2 / P_rated',
  compute: ({ V_rated, P_rated }) => (V_rated * V_rated) / P_rated,
  source: "Joule's law",
})

/** Resistance at work of a load that is rated by its current. */
export const resistanceByCurrent = /*#__PURE__*/ formula({
  symbol: 'R_work',
  quantity: 'resistance of the load at work, by its rated current',
  unit: 'ohm',
  inputs: { V_rated, I_rated: ['A', 0.05, 20] },
  expression: 'V_rated / I_rated',
  compute: ({ V_rated, I_rated }) => V_rated / I_rated,
  source: "Ohm's law",
})

/** Resistance at 20 °C of a load whose resistance at work is known. */
export const coldLoad = /*#__PURE__*/ formula({
  symbol: 'R_L',
  quantity: 'resistance of the load at 20 °C',
  unit: 'ohm',
  inputs: { R_work: ['ohm', 0.1, 100], alpha_L: ['1/K', 0, 0.005], dT_work: ['K', 0, 400] },
  expression: 'R_work / (1 + alpha_L * dT_work)',
  compute: ({ R_work, alpha_L, dT_work }) => R_work / (1 + alpha_L * dT_work),
  source: 'linear temperature coefficient from 20 °C',
})
