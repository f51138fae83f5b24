import { formula } from '@ohmward/budget/formula'

/** Boltzmann constant in J/K, exact since the 2019 SI. */
export const BOLTZMANN = 1.380649e-23

/** Standard deviation of a rounding to whole counts, in volts: the rectangular half count. */
export const quantisationNoise = /*#__PURE__*/ formula({
  symbol: 'u_q',
  quantity: 'quantisation noise',
  unit: 'V',
  inputs: { V_LSB: ['V', 1e-9, 1] },
  expression: 'V_LSB / sqrt(12)',
  compute: ({ V_LSB }) => V_LSB / Math.sqrt(12),
  source: 'JCGM 100:2008, F.2.2.1',
})

/** Signal-to-noise ratio of an ideal converter with a full-scale sine, in decibels: 6.02 N + 1.76. */
export const quantisationSnr = /*#__PURE__*/ formula({
  symbol: 'SNR_dB',
  quantity: 'signal-to-noise ratio from quantisation',
  unit: '1',
  inputs: { N_bits: ['1', 1, 32] },
  expression: '20 * log(2^N_bits * sqrt(1.5)) / log(10)',
  compute: ({ N_bits }) => (20 * Math.log(2 ** N_bits * Math.sqrt(1.5))) / Math.log(10),
  source: 'textbook: full-scale sine over the rectangular quantisation noise',
})

/** Effective bits of a real converter from its signal-to-noise-and-distortion ratio in decibels. */
export const effectiveBits = /*#__PURE__*/ formula({
  symbol: 'ENOB',
  quantity: 'effective number of bits',
  unit: '1',
  inputs: { SINAD_dB: ['1', 3, 200] },
  expression: '(SINAD_dB - 20 * log(sqrt(1.5)) / log(10)) / (20 * log(2) / log(10))',
  compute: ({ SINAD_dB }) =>
    (SINAD_dB - (20 * Math.log(Math.sqrt(1.5))) / Math.log(10)) / ((20 * Math.log(2)) / Math.log(10)),
  source: 'the ideal signal-to-noise ratio, inverted',
})

/** Noise of an average of independent samples, their rounding included, in counts. */
export const averagedNoise = /*#__PURE__*/ formula({
  symbol: 'n_avg',
  quantity: 'noise of the average',
  unit: '1',
  inputs: { n_rms: ['1', 0, 100], M_avg: ['1', 1, 65536] },
  expression: 'sqrt((n_rms^2 + 1 / 12) / M_avg)',
  compute: ({ n_rms, M_avg }) => Math.sqrt((n_rms ** 2 + 1 / 12) / M_avg),
  source: 'standard deviation of a mean, JCGM 100:2008, 4.2.3; rounding as independent noise',
})

/** Bits that an average gains where noise dithers the input: one for each factor of four. Pitfall D06. */
export const averagingBits = /*#__PURE__*/ formula({
  symbol: 'N_gain',
  quantity: 'bits gained by averaging',
  unit: '1',
  inputs: { M_avg: ['1', 1, 65536] },
  expression: 'log(M_avg) / log(4)',
  compute: ({ M_avg }) => Math.log(M_avg) / Math.log(4),
  source: 'standard deviation of a mean, JCGM 100:2008, 4.2.3',
})

/**
 * Half-width of the rounding error that no averaging removes, in counts: 0.5 without noise, below 0.003 from half a
 * count of noise on. An upper bound at every place between two codes. Pitfall D06.
 */
export const ditheredHalfWidth = /*#__PURE__*/ formula({
  symbol: 'e_dither',
  quantity: 'rounding error left in the average',
  unit: '1',
  inputs: { n_rms: ['1', 0.01, 2] },
  expression: 'min(0.5, -log(1 - exp(-2 * pi^2 * n_rms^2)) / pi)',
  compute: ({ n_rms }) => Math.min(0.5, -Math.log(1 - Math.exp(-2 * Math.PI ** 2 * n_rms ** 2)) / Math.PI),
  source: 'Fourier series of the rounding error under normal noise, sum of its amplitudes (derived in the test)',
  smooth: false,
})

/** What is left after averaging: the systematic part untouched, the noise over the root of the samples. Pitfall D06. */
export const averagedResidual = /*#__PURE__*/ formula({
  symbol: 'e_left',
  quantity: 'error left after averaging',
  unit: '1',
  inputs: { e_sys: ['1', 0, 1000], n_rms: ['1', 0, 100], M_avg: ['1', 1, 65536] },
  expression: 'sqrt(e_sys^2 + n_rms^2 / M_avg)',
  compute: ({ e_sys, n_rms, M_avg }) => Math.sqrt(e_sys ** 2 + n_rms ** 2 / M_avg),
  source: 'JCGM 100:2008, 5.1.2',
})

/** Codes that stay apart in spite of the noise: the scale over 6.6 standard deviations (99.9 % of the readings). */
export const noiseFreeCounts = /*#__PURE__*/ formula({
  symbol: 'code_free',
  quantity: 'noise-free counts',
  unit: '1',
  inputs: { N_bits: ['1', 1, 32], n_rms: ['1', 0.01, 100] },
  expression: 'min(2^N_bits, 2^N_bits / (6.6 * n_rms))',
  compute: ({ N_bits, n_rms }) => Math.min(2 ** N_bits, 2 ** N_bits / (6.6 * n_rms)),
  source: 'noise-free code resolution, 6.6 standard deviations peak to peak; common practice (from memory)',
  smooth: false,
})

/** Noise of a resistance in a bandwidth, root mean square. The noise bandwidth of one pole is π/2 of its corner. */
export const thermalNoise = /*#__PURE__*/ formula({
  symbol: 'V_nR',
  quantity: 'thermal noise of a resistance',
  unit: 'V',
  inputs: {
    k_B: ['J/K', 1.380649e-23, 1.380649e-23],
    T_abs: ['K', 1, 500],
    R_n: ['ohm', 0, 1e9],
    BW_n: ['Hz', 0, 1e9],
  },
  expression: 'sqrt(4 * k_B * T_abs * R_n * BW_n)',
  compute: ({ k_B, T_abs, R_n, BW_n }) => Math.sqrt(4 * k_B * T_abs * R_n * BW_n),
  source: 'Johnson and Nyquist, 1928',
})

/** Noise that sampling freezes on the sampling capacitor, root mean square, whatever the source resistance. */
export const samplingNoise = /*#__PURE__*/ formula({
  symbol: 'V_nC',
  quantity: 'sampling noise',
  unit: 'V',
  inputs: { k_B: ['J/K', 1.380649e-23, 1.380649e-23], T_abs: ['K', 1, 500], C_sh: ['F', 1e-13, 1e-9] },
  expression: 'sqrt(k_B * T_abs / C_sh)',
  compute: ({ k_B, T_abs, C_sh }) => Math.sqrt((k_B * T_abs) / C_sh),
  source: 'Johnson and Nyquist, 1928, over the bandwidth 1/(4RC)',
})
