import { formula } from '@ohmward/budget'
import { A_pt, alpha, alpha_n, B_pt, C_pt, dR, R_fix, R_hot, R_rest, T_e, T_rise, t_100, t_C } from './symbols.js'

/** Resistance ratio of an element with a linear law. */
export const linearRatio = /*#__PURE__*/ formula({
  symbol: 'W_x',
  quantity: 'resistance over that at the reference temperature',
  unit: '1',
  inputs: { alpha, T_rise: ['K', -50, 1000] },
  expression: '1 + alpha * T_rise',
  compute: ({ alpha, T_rise }) => 1 + alpha * T_rise,
  source: 'temperature coefficient of resistance, linear',
})

/** Temperature rise that two readings of one element tell. Pitfalls C02, C03. */
export const indicatedRise = /*#__PURE__*/ formula({
  symbol: 'T_ind',
  quantity: 'indicated rise above the reference temperature',
  unit: 'K',
  inputs: { R_hot, R_rest, alpha_n },
  expression: '(R_hot / R_rest - 1) / alpha_n',
  compute: ({ R_hot, R_rest, alpha_n }) => (R_hot / R_rest - 1) / alpha_n,
  source: 'linear law, solved for the temperature',
})

/** Error of the indicated rise when the cold value was stored `T_e` too warm. Pitfall C01. */
export const storedWarmError = /*#__PURE__*/ formula({
  symbol: 'E_rest',
  quantity: 'error of the indicated rise from a cold value stored warm',
  unit: 'K',
  inputs: { T_e, alpha, T_rise },
  expression: '-T_e * (1 + alpha * T_rise) / (1 + alpha * T_e)',
  compute: ({ T_e, alpha, T_rise }) => (-T_e * (1 + alpha * T_rise)) / (1 + alpha * T_e),
  source: 'linear law through a reference point that is T_e off',
})

/** Error of the indicated rise when the coefficient differs from the one assumed. Pitfall C02. */
export const coefficientError = /*#__PURE__*/ formula({
  symbol: 'E_alpha',
  quantity: 'error of the indicated rise from the coefficient',
  unit: 'K',
  inputs: { alpha, alpha_n, T_rise },
  expression: 'T_rise * (alpha / alpha_n - 1)',
  compute: ({ alpha, alpha_n, T_rise }) => T_rise * (alpha / alpha_n - 1),
  source: 'linear law',
})

/** Temperature for a relative error of the resistance. Pitfall C03. */
export const resistanceError = /*#__PURE__*/ formula({
  symbol: 'E_R',
  quantity: 'error of the indicated rise from an error of the resistance',
  unit: 'K',
  inputs: { dR, R_rest, alpha },
  expression: 'dR / (R_rest * alpha)',
  compute: ({ dR, R_rest, alpha }) => dR / (R_rest * alpha),
  source: 'linear law, derivative by the resistance',
})

/** Loss of the indicated rise to a fixed resistance in series that nobody subtracts. Pitfall C04. */
export const dilutionError = /*#__PURE__*/ formula({
  symbol: 'E_dil',
  quantity: 'error of the indicated rise from a fixed series resistance',
  unit: 'K',
  inputs: { T_rise, R_fix, R_rest },
  expression: '-T_rise * R_fix / (R_rest + R_fix)',
  compute: ({ T_rise, R_fix, R_rest }) => (-T_rise * R_fix) / (R_rest + R_fix),
  source: 'linear law; resistors in series',
})

/** Resistance ratio of industrial platinum from 0 °C up; `t_C` counts from 0 °C. */
export const platinumRatioAbove = /*#__PURE__*/ formula({
  symbol: 'W_pt',
  quantity: 'resistance of platinum over that at 0 °C, from 0 °C up',
  unit: '1',
  inputs: { t_C, A_pt, B_pt },
  expression: '1 + A_pt * t_C + B_pt * t_C^2',
  compute: ({ t_C, A_pt, B_pt }) => 1 + A_pt * t_C + B_pt * t_C * t_C,
  source: 'IEC 60751',
})

/** Resistance ratio of industrial platinum below 0 °C. */
export const platinumRatioBelow = /*#__PURE__*/ formula({
  symbol: 'W_pt',
  quantity: 'resistance of platinum over that at 0 °C, below 0 °C',
  unit: '1',
  inputs: {
    t_C: ['K', -200, 0],
    A_pt,
    B_pt,
    C_pt,
    t_100,
  },
  expression: '1 + A_pt * t_C + B_pt * t_C^2 + C_pt * (t_C - t_100) * t_C^3',
  compute: ({ t_C, A_pt, B_pt, C_pt, t_100 }) =>
    1 + A_pt * t_C + B_pt * t_C * t_C + C_pt * (t_C - t_100) * t_C * t_C * t_C,
  source: 'IEC 60751',
})
