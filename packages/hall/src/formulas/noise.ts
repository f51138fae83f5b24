import type { Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

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

/** The same of the mean of several windows, over that of one window. */
export const windowVariance = /*#__PURE__*/ at(
  meanVariance,
  'q_w',
  (x: Values<'N_win' | 'rho_w'>) => ({ M_w: x.N_win, rho_n: x.rho_w }),
  { quantity: 'variance of the mean of windows over that of a window' },
)

/** Noise of the mean of samples in several windows: the windows' means are averaged once more, by `q_w`. */
export const meanNoise = /*#__PURE__*/ formula({
  symbol: 'V_nm',
  quantity: "noise of the mean at the sensor's output",
  unit: 'V',
  inputs: { V_nrms: ['V', 1e-9, 1], q_n: ['1', 1e-4, 1], q_w: ['1', 1e-4, 1] },
  expression: 'V_nrms * sqrt(q_n * q_w)',
  compute: ({ V_nrms, q_n, q_w }) => V_nrms * Math.sqrt(q_n * q_w),
  source: 'variance of a sum, JCGM 100:2008, 5.2.2',
})

/** Noise at the sensor's output, in counts. */
export const noiseCounts = /*#__PURE__*/ formula({
  symbol: 'n_s',
  quantity: 'noise of the sensor in counts',
  unit: '1',
  inputs: { V_nrms: ['V', 1e-9, 1], S_n: ['V/A', 1e-3, 1], A_count: ['A', 1e-5, 10] },
  expression: 'V_nrms / S_n / A_count',
  compute: ({ V_nrms, S_n, A_count }) => V_nrms / S_n / A_count,
  source: 'definition of sensitivity',
})

/** Noise that is new with each sample, which alone dithers the rounding away. Pitfall D06. */
export const ditherNoise = /*#__PURE__*/ formula({
  symbol: 'n_dith',
  quantity: 'noise that is new with each sample',
  unit: '1',
  inputs: { n_rms: ['1', 0, 100], n_s: ['1', 0, 100], rho_n: ['1', 0, 1] },
  expression: 'sqrt(n_rms^2 + n_s^2 * (1 - rho_n))',
  compute: ({ n_rms, n_s, rho_n }) => Math.hypot(n_rms, n_s * Math.sqrt(1 - rho_n)),
  source: 'variances of independent terms add',
})

/**
 * The converter's part of a mean's noise: its own, and what rounding leaves (`n_mean`, of noise `n_dith`); both are new
 * with each sample.
 */
export const converterNoise = /*#__PURE__*/ formula({
  symbol: 'n_conv',
  quantity: 'noise of the converter in the mean',
  unit: '1',
  inputs: { n_rms: ['1', 0, 100], M_avg: ['1', 1, 1024], n_mean: ['1', 0, 100], n_dith: ['1', 0, 100] },
  expression: 'sqrt(n_rms^2 / M_avg + max(n_mean^2 - n_dith^2 / M_avg, 0))',
  compute: ({ n_rms, M_avg, n_mean, n_dith }) =>
    Math.sqrt(n_rms ** 2 / M_avg + Math.max(0, n_mean ** 2 - n_dith ** 2 / M_avg)),
  source: 'variances of independent terms add',
  smooth: false,
})

/** All noise of a reading. */
export const totalNoise = /*#__PURE__*/ formula({
  symbol: 'n_read',
  quantity: 'noise of the reading',
  unit: '1',
  inputs: { n_conv: ['1', 0, 100], n_s: ['1', 0, 100] },
  expression: 'sqrt(n_conv^2 + n_s^2)',
  compute: ({ n_conv, n_s }) => Math.hypot(n_conv, n_s),
  source: 'variances of independent terms add',
})
