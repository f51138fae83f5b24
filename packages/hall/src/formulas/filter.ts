import { formula } from '@ohmward/budget/formula'

const pole = 'step response of one pole'

/** Time constant of the filter before the converter. */
export const filterTime = /*#__PURE__*/ formula({
  symbol: 'tau_f',
  quantity: 'time constant of the filter',
  unit: 's',
  inputs: { R_src: ['ohm', 1, 1e6], C_f: ['F', 1e-12, 1e-3] },
  expression: 'R_src * C_f',
  compute: ({ R_src, C_f }) => R_src * C_f,
  source: 'definition',
})

/** Corner of the filter before the converter. */
export const filterCorner = /*#__PURE__*/ formula({
  symbol: 'f_3',
  quantity: 'corner of the filter',
  unit: 'Hz',
  inputs: { tau_f: ['s', 1e-9, 1] },
  expression: '1 / (2 * pi * tau_f)',
  compute: ({ tau_f }) => 1 / (2 * Math.PI * tau_f),
  source: 'one pole',
})

/** Time constant of the sensor itself, taken as one pole at its bandwidth. */
export const sensorTime = /*#__PURE__*/ formula({
  symbol: 'tau_s',
  quantity: 'time constant of the sensor',
  unit: 's',
  inputs: { BW_s: ['Hz', 100, 1e8] },
  expression: '1 / (2 * pi * BW_s)',
  compute: ({ BW_s }) => 1 / (2 * Math.PI * BW_s),
  source: 'one pole',
})

/** Time from the step until the sample: the wait from the edge's command less the edge, and none where the edge lasts longer. */
export const settlingLeft = /*#__PURE__*/ formula({
  symbol: 't_set',
  quantity: 'time from the step to the sample',
  unit: 's',
  inputs: { t_wait: ['s', 0, 1e-2], t_edge: ['s', 0, 1e-3] },
  expression: 'max(t_wait - t_edge, t_edge - t_edge)',
  compute: ({ t_wait, t_edge }) => Math.max(t_wait - t_edge, 0),
  source: 'difference of two times',
  smooth: false,
})

/** Filtered output when the sample is taken inside the on-window. */
export const sampledOutput = /*#__PURE__*/ formula({
  symbol: 'V_f',
  quantity: 'filtered output at the sampling instant',
  unit: 'V',
  inputs: { V_on: ['V', 0, 30], V_off: ['V', 0, 30], s_f: ['1', 0, 1] },
  expression: 'V_on - (V_on - V_off) * s_f',
  compute: ({ V_on, V_off, s_f }) => V_on - (V_on - V_off) * s_f,
  source: pole,
})

/** Filtered output when the filter averages over the period; `w_x` is the ripple at the sampling instant, as a share of the step. */
export const averagedOutput = /*#__PURE__*/ formula({
  symbol: 'V_f',
  quantity: 'averaged output at the sampling instant',
  unit: 'V',
  inputs: { V_off: ['V', 0, 30], D_x: ['1', 0.01, 1], w_x: ['1', -0.5, 0.5], V_on: ['V', 0, 30] },
  expression: 'V_off + (D_x + w_x) * (V_on - V_off)',
  compute: ({ V_off, D_x, w_x, V_on }) => V_off + (D_x + w_x) * (V_on - V_off),
  source: 'mean of a rectangular wave, and what one pole leaves of it',
})

/** How far the filtered wave rises above its mean, as a share of the on-value; exact in steady state. Pitfall E08. */
export const rippleAbove = /*#__PURE__*/ formula({
  symbol: 'w_up',
  quantity: 'ripple above the mean',
  unit: '1',
  inputs: { D_PWM: ['1', 0.01, 1], f_PWM: ['Hz', 100, 1e5], tau_f: ['s', 1e-5, 1e-2] },
  expression: '(1 - exp(-D_PWM / (f_PWM * tau_f))) / (1 - exp(-1 / (f_PWM * tau_f))) - D_PWM',
  compute: ({ D_PWM, f_PWM, tau_f }) => Math.expm1(-D_PWM / (f_PWM * tau_f)) / Math.expm1(-1 / (f_PWM * tau_f)) - D_PWM,
  source: 'step response of one pole, periodic steady state (derived in the test)',
})

/** How far the filtered wave falls below its mean, as a share of the on-value; exact in steady state. */
export const rippleBelow = /*#__PURE__*/ formula({
  symbol: 'w_down',
  quantity: 'ripple below the mean',
  unit: '1',
  inputs: { D_PWM: ['1', 0.01, 1], f_PWM: ['Hz', 100, 1e5], tau_f: ['s', 1e-5, 1e-2] },
  expression:
    'D_PWM - exp(-(1 - D_PWM) / (f_PWM * tau_f)) * (1 - exp(-D_PWM / (f_PWM * tau_f))) / (1 - exp(-1 / (f_PWM * tau_f)))',
  compute: ({ D_PWM, f_PWM, tau_f }) =>
    D_PWM -
    (Math.exp(-(1 - D_PWM) / (f_PWM * tau_f)) * Math.expm1(-D_PWM / (f_PWM * tau_f))) /
      Math.expm1(-1 / (f_PWM * tau_f)),
  source: 'step response of one pole, periodic steady state (derived in the test)',
})

/** Time constant whose ripple at half duty, where it is largest, is an error `E_I` either way; an upper bound of the exact one. */
export const averagingTime = /*#__PURE__*/ formula({
  symbol: 'tau_avg',
  quantity: 'time constant needed for averaging',
  unit: 's',
  inputs: { I_max: ['A', 0.1, 200], f_PWM: ['Hz', 100, 1e5], E_I: ['A', 1e-3, 10] },
  expression: 'I_max / (8 * f_PWM * E_I)',
  compute: ({ I_max, f_PWM, E_I }) => I_max / (8 * f_PWM * E_I),
  source: 'ripple of one pole at half duty, tanh(x) taken for x (held against the exact one in the test)',
})

/** Duty at which the crest of the filtered wave is furthest above its mean; the trough is furthest below at the rest of 1. */
export const crestDuty = /*#__PURE__*/ formula({
  symbol: 'D_crest',
  quantity: 'duty of the largest ripple above the mean',
  unit: '1',
  inputs: { f_PWM: ['Hz', 100, 1e4], tau_f: ['s', 1e-4, 1e-2] },
  expression: 'f_PWM * tau_f * log(1 / (f_PWM * tau_f * (1 - exp(-1 / (f_PWM * tau_f)))))',
  compute: ({ f_PWM, tau_f }) => {
    const periods = 1 / (f_PWM * tau_f)
    return Math.log(periods / -Math.expm1(-periods)) / periods
  },
  source: 'slope of the ripple by the duty set to nought (searched for in the test)',
})

/** Duty at which a mean current flows: that of the largest current at full drive, within the duties that are used. */
export const dutyOfMean = /*#__PURE__*/ formula({
  symbol: 'D_x',
  quantity: 'duty at the mean current',
  unit: '1',
  inputs: { I_x: ['A', -200, 200], I_max: ['A', 1, 200], D_least: ['1', 0.01, 0.5], D_most: ['1', 0.5, 1] },
  expression: 'min(max(abs(I_x) / I_max, D_least), D_most)',
  compute: ({ I_x, I_max, D_least, D_most }) => Math.min(Math.max(Math.abs(I_x) / I_max, D_least), D_most),
  source: 'mean of a rectangular wave',
  smooth: false,
})

/** From a step of the current until a reading of several windows has followed it. */
export const followingTime = /*#__PURE__*/ formula({
  symbol: 't_follow',
  quantity: 'time until the reading has followed a step',
  unit: 's',
  inputs: { t_first: ['s', 0, 1], N_win: ['1', 1, 1024], T_s: ['s', 1e-6, 1e-2] },
  expression: 't_first + (N_win - 1) * T_s',
  compute: ({ t_first, N_win, T_s }) => t_first + (N_win - 1) * T_s,
  source: 'sum of the times',
})
