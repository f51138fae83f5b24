import { formula } from '@ohmward/budget/formula'

/** Resistance ratio of an element with a linear law. */
export const linearRatio = /*#__PURE__*/ formula({
  symbol: 'W_x',
  quantity: 'resistance over that at the reference temperature',
  unit: '1',
  inputs: { alpha: ['1/K', 1e-5, 1e-2], T_rise: ['K', -50, 1000] },
  expression: '1 + alpha * T_rise',
  compute: (x) => 1 + x.alpha * x.T_rise,
  source: 'linear law',
})

/**
 * The same of a metal, whose coefficient changes with the rise: `q_alpha` is that change per kelvin, relative. Platinum has
 * -1.5e-4 (IEC 60751, B over A); from memory copper and tungsten 1.2e-4 to 2.1e-4, nickel 1.2e-3, iron 1.6e-3.
 */
export const curvedRatio = /*#__PURE__*/ formula({
  symbol: 'W_x',
  quantity: 'resistance over that at the reference temperature',
  unit: '1',
  inputs: { alpha: ['1/K', 1e-5, 1e-2], q_alpha: ['1/K', -1e-3, 1e-3], T_rise: ['K', -50, 1000] },
  expression: '1 + alpha * T_rise * (1 + q_alpha * T_rise)',
  compute: (x) => 1 + x.alpha * x.T_rise * (1 + x.q_alpha * x.T_rise),
  source: 'second term of a power series about the reference temperature',
})

/** How far a platinum resistor may lie off the law, by its class; `t_C` counts from 0 °C. */
export const classTolerance = /*#__PURE__*/ formula({
  symbol: 'E_class',
  quantity: 'tolerance of the element in temperature',
  unit: 'K',
  inputs: { a_class: ['K', 0.1, 1], b_class: ['1', 0.0017, 0.03], t_C: ['K', -200, 850] },
  expression: 'a_class + b_class * abs(t_C)',
  compute: (x) => x.a_class + x.b_class * Math.abs(x.t_C),
  source: 'IEC 60751, tolerance classes',
  smooth: false,
})

/** Ratio of the reading hot to that at rest. A cold value of less than a hundredth of the nominal load counts for that. */
export const ratioOfTwo = /*#__PURE__*/ formula({
  symbol: 'W_ind',
  quantity: 'resistance over that at rest, indicated',
  unit: '1',
  inputs: { R_hot: ['ohm', 0.01, 100], R_rest: ['ohm', -0.1, 100], R_0n: ['ohm', 0.01, 100] },
  expression: 'R_hot / max(R_rest, R_0n / 100)',
  compute: (x) => x.R_hot / Math.max(x.R_rest, x.R_0n / 100),
  source: 'definition; least cold value: common practice, no source',
  smooth: false,
})

/**
 * Temperature rise that the ratio of two readings of one element tells, above the temperature to which the coefficient is
 * referred; `W_0` is the ratio there to which the cold value belongs. Pitfalls C02, C03.
 */
export const indicatedRise = /*#__PURE__*/ formula({
  symbol: 'T_ind',
  quantity: 'indicated rise above the reference temperature',
  unit: 'K',
  inputs: { W_ind: ['1', 0, 100], W_0: ['1', 0.5, 2], alpha_n: ['1/K', 1e-5, 1e-2] },
  expression: '(W_ind * W_0 - 1) / alpha_n',
  compute: (x) => (x.W_ind * x.W_0 - 1) / x.alpha_n,
  source: 'linear law',
})

/** Error of the indicated rise when the cold value was stored `T_e` too warm. Pitfall C01. */
export const storedWarmError = /*#__PURE__*/ formula({
  symbol: 'E_rest',
  quantity: 'error of the rise: cold value stored warm',
  unit: 'K',
  inputs: { T_e: ['K', 0, 200], alpha: ['1/K', 1e-5, 1e-2], T_rise: ['K', 0, 1000] },
  expression: '-T_e * (1 + alpha * T_rise) / (1 + alpha * T_e)',
  compute: (x) => (-x.T_e * (1 + x.alpha * x.T_rise)) / (1 + x.alpha * x.T_e),
  source: 'linear law',
})

/** Error of the indicated rise when the coefficient differs from the one assumed. Pitfall C02. */
export const coefficientError = /*#__PURE__*/ formula({
  symbol: 'E_alpha',
  quantity: 'error of the rise: coefficient',
  unit: 'K',
  inputs: { alpha: ['1/K', 1e-5, 1e-2], alpha_n: ['1/K', 1e-5, 1e-2], T_rise: ['K', 0, 1000] },
  expression: 'T_rise * (alpha / alpha_n - 1)',
  compute: (x) => x.T_rise * (x.alpha / x.alpha_n - 1),
  source: 'linear law',
})

/** Temperature for a relative error of the resistance. Pitfall C03. */
export const resistanceError = /*#__PURE__*/ formula({
  symbol: 'E_R',
  quantity: 'error of the rise: resistance',
  unit: 'K',
  inputs: { dR: ['ohm', 0, 1], R_rest: ['ohm', 0.01, 100], alpha: ['1/K', 1e-5, 1e-2] },
  expression: 'dR / (R_rest * alpha)',
  compute: (x) => x.dR / (x.R_rest * x.alpha),
  source: 'linear law',
})

/** Loss of the indicated rise to a fixed resistance in series that nobody subtracts. Pitfall C04. */
export const dilutionError = /*#__PURE__*/ formula({
  symbol: 'E_dil',
  quantity: 'error of the rise: fixed series resistance',
  unit: 'K',
  inputs: { T_rise: ['K', 0, 1000], R_fix: ['ohm', 0, 10], R_rest: ['ohm', 0.01, 100] },
  expression: '-T_rise * R_fix / (R_rest + R_fix)',
  compute: (x) => (-x.T_rise * x.R_fix) / (x.R_rest + x.R_fix),
  source: 'linear law',
})

/** Resistance ratio of industrial platinum from 0 °C up; `t_C` counts from 0 °C. */
export const platinumRatioAbove = /*#__PURE__*/ formula({
  symbol: 'W_pt',
  quantity: 'platinum over its resistance at 0 °C',
  unit: '1',
  inputs: { t_C: ['K', 0, 850], A_pt: ['1/K', 3.9e-3, 3.92e-3], B_pt: ['1/K^2', -5.8e-7, -5.7e-7] },
  expression: '1 + A_pt * t_C + B_pt * t_C^2',
  compute: (x) => 1 + x.A_pt * x.t_C + x.B_pt * x.t_C * x.t_C,
  source: 'IEC 60751',
})

/** Resistance ratio of industrial platinum below 0 °C. */
export const platinumRatioBelow = /*#__PURE__*/ formula({
  symbol: 'W_pt',
  quantity: 'platinum over its resistance at 0 °C',
  unit: '1',
  inputs: {
    t_C: ['K', -200, 0],
    A_pt: ['1/K', 3.9e-3, 3.92e-3],
    B_pt: ['1/K^2', -5.8e-7, -5.7e-7],
    C_pt: ['1/K^4', -4.2e-12, -4.1e-12],
    t_100: ['K', 99, 101],
  },
  expression: '1 + A_pt * t_C + B_pt * t_C^2 + C_pt * (t_C - t_100) * t_C^3',
  compute: (x) => 1 + x.A_pt * x.t_C + x.B_pt * x.t_C * x.t_C + x.C_pt * (x.t_C - x.t_100) * x.t_C * x.t_C * x.t_C,
  source: 'IEC 60751',
})
