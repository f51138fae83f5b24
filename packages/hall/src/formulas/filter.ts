import { formula } from '@ohmward/budget'

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

/**
 * What sensor and filter together still miss of the step at the sampling instant, `t_set` after it. The two time
 * constants must differ. Pitfall E08.
 */
export const unsettledShare = /*#__PURE__*/ formula({
  symbol: 's_f',
  quantity: 'unsettled share of the step',
  unit: '1',
  inputs: { tau_f: ['s', 1e-5, 1e-2], t_set: ['s', 1e-6, 1e-2], tau_s: ['s', 1e-8, 1e-6] },
  expression: '(tau_f * exp(-t_set / tau_f) - tau_s * exp(-t_set / tau_s)) / (tau_f - tau_s)',
  compute: ({ tau_f, t_set, tau_s }) =>
    (tau_f * Math.exp(-t_set / tau_f) - tau_s * Math.exp(-t_set / tau_s)) / (tau_f - tau_s),
  source: 'step response of two poles in series',
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
  compute: ({ D_PWM, f_PWM, tau_f }) =>
    (1 - Math.exp(-D_PWM / (f_PWM * tau_f))) / (1 - Math.exp(-1 / (f_PWM * tau_f))) - D_PWM,
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
    (Math.exp(-(1 - D_PWM) / (f_PWM * tau_f)) * (1 - Math.exp(-D_PWM / (f_PWM * tau_f)))) /
      (1 - Math.exp(-1 / (f_PWM * tau_f))),
  source: 'step response of one pole, periodic steady state (derived in the test)',
})

/** Noise bandwidth of the sensor's pole and the filter's in series. */
export const noiseBandwidth = /*#__PURE__*/ formula({
  symbol: 'BW_n',
  quantity: 'noise bandwidth',
  unit: 'Hz',
  inputs: { BW_s: ['Hz', 100, 1e8], f_3: ['Hz', 0.1, 1e8] },
  expression: 'pi / 2 * BW_s * f_3 / (BW_s + f_3)',
  compute: ({ BW_s, f_3 }) => ((Math.PI / 2) * BW_s * f_3) / (BW_s + f_3),
  source: 'integral of two poles in series (derived in the test)',
})

/** Noise at the sensor's output, root mean square. Pitfall E07. */
export const outputNoise = /*#__PURE__*/ formula({
  symbol: 'V_nrms',
  quantity: "noise at the sensor's output",
  unit: 'V',
  inputs: { e_d: ['V/Hz^0.5', 1e-9, 1e-3], BW_n: ['Hz', 0.1, 1e8] },
  expression: 'e_d * sqrt(BW_n)',
  compute: ({ e_d, BW_n }) => e_d * Math.sqrt(BW_n),
  source: 'white noise in its noise bandwidth',
})

/** Correlation of two samples of filtered noise, one sampling interval apart. */
export const sampleCorrelation = /*#__PURE__*/ formula({
  symbol: 'rho_n',
  quantity: 'correlation of neighbouring samples',
  unit: '1',
  inputs: { T_s: ['s', 1e-6, 1e-2], tau_f: ['s', 1e-6, 1e-2] },
  expression: 'exp(-T_s / tau_f)',
  compute: ({ T_s, tau_f }) => Math.exp(-T_s / tau_f),
  source: 'autocorrelation of white noise after one pole',
})

/** Variance of the mean of `M_w` samples of one window over that of one sample: above 1/M where noise is correlated. */
export const meanVariance = /*#__PURE__*/ formula({
  symbol: 'q_n',
  quantity: 'variance of the mean over that of a sample',
  unit: '1',
  inputs: { M_w: ['1', 1, 1024], rho_n: ['1', 0, 0.99] },
  expression: '(1 + 2 * (rho_n / (1 - rho_n) - rho_n * (1 - rho_n^M_w) / (M_w * (1 - rho_n)^2))) / M_w',
  compute: ({ M_w, rho_n }) =>
    (1 + 2 * (rho_n / (1 - rho_n) - (rho_n * (1 - rho_n ** M_w)) / (M_w * (1 - rho_n) ** 2))) / M_w,
  source: 'variance of a sum, JCGM 100:2008, 5.2.2, with correlations rho^|i-j| (summed in the test)',
})
