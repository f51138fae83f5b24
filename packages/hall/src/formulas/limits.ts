import { twoTo } from '@ohmward/adc/formulas'
import { formula } from '@ohmward/budget/formula'

/** Smallest step of the reading: what rounding leaves after averaging. Pitfall E07. */
export const readingStep = /*#__PURE__*/ formula({
  symbol: 'I_step',
  quantity: 'smallest step of the reading',
  unit: 'A',
  inputs: { A_count: ['A', 1e-5, 10], h_round: ['1', 0, 0.5] },
  expression: '2 * h_round * A_count',
  compute: ({ A_count, h_round }) => 2 * h_round * A_count,
  source: 'rounding error that noise does not dither away',
})

/** Noise of the reading, peak to peak: 6.6 standard deviations hold 99.9 % of the readings. Pitfall E07. */
export const readingNoise = /*#__PURE__*/ formula({
  symbol: 'I_npp',
  quantity: 'noise of the reading, peak to peak',
  unit: 'A',
  inputs: { A_count: ['A', 1e-5, 10], n_read: ['1', 0, 1e3] },
  expression: '6.6 * n_read * A_count',
  compute: ({ A_count, n_read }) => 6.6 * n_read * A_count,
  source: '6.6 standard deviations peak to peak; common practice (from memory)',
})

/** Span above the zero: to the sensor's highest output, or to the full scale where that comes first. */
export const spanAbove = /*#__PURE__*/ formula({
  symbol: 'V_span',
  quantity: 'span above the zero',
  unit: 'V',
  inputs: {
    V_s: ['V', 1, 30],
    V_oh: ['V', 0, 1],
    V_refn: ['V', 0.5, 30],
    k_dn: ['1', 0.05, 1],
    V_qn: ['V', 0.1, 5],
  },
  expression: 'min(V_s - V_oh, V_refn / k_dn) - V_qn',
  compute: ({ V_s, V_oh, V_refn, k_dn, V_qn }) => Math.min(V_s - V_oh, V_refn / k_dn) - V_qn,
  source: 'data sheet: output swing; full scale of the converter',
  smooth: false,
})

/** Span below the zero: to the sensor's lowest output. */
export const spanBelow = /*#__PURE__*/ formula({
  symbol: 'V_span',
  quantity: 'span below the zero',
  unit: 'V',
  inputs: { V_qn: ['V', 0.1, 5], V_ol: ['V', 0, 1] },
  expression: 'V_qn - V_ol',
  compute: ({ V_qn, V_ol }) => V_qn - V_ol,
  source: 'data sheet: output swing',
})

/** Share of the span on one side of the zero that the largest current uses. Pitfall E10. */
export const rangeUsed = /*#__PURE__*/ formula({
  symbol: 'p_used',
  quantity: 'share of the span used',
  unit: '1',
  inputs: { S_n: ['V/A', 1e-3, 1], I_max: ['A', 0, 200], V_span: ['V', 0.1, 30] },
  expression: 'S_n * I_max / V_span',
  compute: ({ S_n, I_max, V_span }) => (S_n * I_max) / V_span,
  source: 'definition of sensitivity',
})

/** Root mean square of a current that flows for a share of the time. */
export const rmsCurrent = /*#__PURE__*/ formula({
  symbol: 'I_rms',
  quantity: 'root mean square of the current',
  unit: 'A',
  inputs: { I_max: ['A', 0, 200], D_PWM: ['1', 0, 1] },
  expression: 'I_max * sqrt(D_PWM)',
  compute: ({ I_max, D_PWM }) => I_max * Math.sqrt(D_PWM),
  source: 'root mean square of a rectangular wave',
})

/** Dissipation of the sensor's conductor. */
export const conductorLoss = /*#__PURE__*/ formula({
  symbol: 'P_c',
  quantity: "dissipation of the sensor's conductor",
  unit: 'W',
  inputs: { I_rms: ['A', 0, 200], R_c: ['ohm', 0, 0.1] },
  expression: 'I_rms^2 * R_c',
  compute: ({ I_rms, R_c }) => I_rms * I_rms * R_c,
  source: 'Joule',
})

/** Temperature of the sensor's conductor above 25 °C. */
export const conductorTemperature = /*#__PURE__*/ formula({
  symbol: 'T_cond',
  quantity: "temperature of the sensor's conductor above 25 °C",
  unit: 'K',
  inputs: { T_d: ['K', -65, 125], R_thc: ['K/W', 0, 500], P_c: ['W', 0, 50] },
  expression: 'T_d + R_thc * P_c',
  compute: ({ T_d, R_thc, P_c }) => T_d + R_thc * P_c,
  source: 'thermal resistance, steady state',
})

/**
 * Time from the edge until the reading stands within half a count: sensor and filter settle one after the other, which is
 * no less than together. The usual 0.35/BW for the sensor is its rise from 10 to 90 % and leaves it a tenth short.
 * Pitfall E08.
 */
export const neededWait = /*#__PURE__*/ formula({
  symbol: 't_need',
  quantity: 'time from the edge until the reading is settled',
  unit: 's',
  inputs: { t_edge: ['s', 0, 1e-3], N_bits: ['1', 8, 16], tau_s: ['s', 1e-9, 1e-3], tau_f: ['s', 1e-9, 1] },
  expression: 't_edge + (N_bits + 1) * log(2) * (tau_s + tau_f)',
  compute: ({ t_edge, N_bits, tau_s, tau_f }) => t_edge + (N_bits + 1) * Math.log(2) * (tau_s + tau_f),
  source: 'sum of the times, step response of one pole to half a count (held against two poles in the test)',
})

/** Share of a resistive load's power that the square of its mean current gives. Pitfall E09. */
export const meanSquareShare = /*#__PURE__*/ formula({
  symbol: 'p_share',
  quantity: 'power from the squared mean current, as a share of the true power',
  unit: '1',
  inputs: { I_avg: ['A', 0.01, 200], I_on: ['A', 0.01, 200], D_PWM: ['1', 0.01, 1] },
  expression: 'I_avg^2 / (D_PWM * I_on^2)',
  compute: ({ I_avg, I_on, D_PWM }) => (I_avg * I_avg) / (D_PWM * I_on * I_on),
  source: 'Joule: the true power is that while on, times the duty',
})

/** Share of the power that a squared reading must give at least, where the reading itself may be off by `e_I`: twice that. */
export const leastPowerShare = /*#__PURE__*/ formula({
  symbol: 'p_least',
  quantity: 'least share of the power',
  unit: '1',
  inputs: { e_I: ['1', 0, 1] },
  expression: 'max(1 - 2 * e_I, 0)',
  compute: ({ e_I }) => Math.max(0, 1 - 2 * e_I),
  source: 'a square is off by twice the share of its root, to first order',
  smooth: false,
})

/** Power of a resistive load from the current in its on-window. Pitfall E09. */
export const onPower = /*#__PURE__*/ formula({
  symbol: 'P_x',
  quantity: 'mean power of the load',
  unit: 'W',
  inputs: { D_PWM: ['1', 0, 1], V_x: ['V', 0, 60], I_on: ['A', 0, 200] },
  expression: 'D_PWM * V_x * I_on',
  compute: ({ D_PWM, V_x, I_on }) => D_PWM * V_x * I_on,
  source: 'Joule',
})

/** Counts over the zero that a current makes. Pitfall F05. */
export const countsOf = /*#__PURE__*/ formula({
  symbol: 'code_I',
  quantity: 'counts of a current',
  unit: '1',
  inputs: { I_x: ['A', 0, 200], A_count: ['A', 1e-5, 10] },
  expression: 'I_x / A_count',
  compute: ({ I_x, A_count }) => I_x / A_count,
  source: 'definition',
})

/** Largest voltage that the converter still tells from the one above. Pitfall E02. */
export const highestPin = /*#__PURE__*/ formula({
  symbol: 'V_top',
  quantity: 'highest voltage that the converter reads',
  unit: 'V',
  inputs: { V_ref: ['V', 0.5, 30], N_bits: ['1', 8, 16] },
  expression: 'V_ref * (1 - 1 / 2^N_bits)',
  compute: ({ V_ref, N_bits }) => V_ref * (1 - 1 / twoTo(N_bits)),
  source: 'ideal uniform converter: the reference itself has no code',
})
