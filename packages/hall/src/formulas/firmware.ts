import { twoTo } from '@ohmward/adc/formulas'
import { formula } from '@ohmward/budget/formula'

const inverse = 'inverse of the chain with nominal constants'

/** Code at zero current, as the firmware assumes it. */
export const zeroCode = /*#__PURE__*/ formula({
  symbol: 'code_zero',
  quantity: 'code at zero current, nominal',
  unit: '1',
  inputs: { V_qn: ['V', 0.1, 5], k_dn: ['1', 0.05, 1], V_refn: ['V', 0.5, 30], N_bits: ['1', 8, 16] },
  expression: 'V_qn * k_dn / V_refn * 2^N_bits',
  compute: ({ V_qn, k_dn, V_refn, N_bits }) => ((V_qn * k_dn) / V_refn) * twoTo(N_bits),
  source: inverse,
})

/** Current for one count, as the firmware assumes it. Pitfall E07. */
export const countCurrent = /*#__PURE__*/ formula({
  symbol: 'A_count',
  quantity: 'current for one count',
  unit: 'A',
  inputs: { V_refn: ['V', 0.5, 30], N_bits: ['1', 8, 16], k_dn: ['1', 0.05, 1], S_n: ['V/A', 1e-3, 1] },
  expression: 'V_refn / (2^N_bits * k_dn * S_n)',
  compute: ({ V_refn, N_bits, k_dn, S_n }) => V_refn / (twoTo(N_bits) * k_dn * S_n),
  source: inverse,
})

/** Current as the firmware indicates it. */
export const indicatedCurrent = /*#__PURE__*/ formula({
  symbol: 'I_ind',
  quantity: 'indicated current',
  unit: 'A',
  inputs: { code_out: ['1', 0, 65536], code_zero: ['1', 0, 65536], A_count: ['A', 1e-5, 10] },
  expression: '(code_out - code_zero) * A_count',
  compute: ({ code_out, code_zero, A_count }) => (code_out - code_zero) * A_count,
  source: inverse,
})

/** Indicated current less the reading with the load off. Pitfall E04. */
export const zeroedCurrent = /*#__PURE__*/ formula({
  symbol: 'I_cor',
  quantity: 'indicated current after zero calibration',
  unit: 'A',
  inputs: { I_ind: ['A', -200, 200], I_z: ['A', -20, 20] },
  expression: 'I_ind - I_z',
  compute: ({ I_ind, I_z }) => I_ind - I_z,
  source: 'difference of two readings',
})

/** What a zero's reading still holds of the current that flowed before, at the sample, in amperes. */
export const heldCurrent = /*#__PURE__*/ formula({
  symbol: 'I_held',
  quantity: 'remainder of the previous current in the zero reading',
  unit: 'A',
  inputs: { s_z: ['1', 0, 1], I_bef: ['A', -200, 200] },
  expression: 's_z * I_bef',
  compute: ({ s_z, I_bef }) => s_z * I_bef,
  source: 'step response of two poles in series; both start no higher than the current before',
})

/** Current that the reading of the zero is taken at: what flows although the load is off, and what hasn't settled. */
export const zeroCurrent = /*#__PURE__*/ formula({
  symbol: 'I_z0',
  quantity: 'current in the reading of the zero',
  unit: 'A',
  inputs: { I_rest: ['A', -100, 100], I_held: ['A', -200, 200] },
  expression: 'I_rest + I_held',
  compute: ({ I_rest, I_held }) => I_rest + I_held,
  source: 'superposition',
})

/** Code at which the firmware trips, for a wanted current; continuous, rounded up for use. */
export const tripCode = /*#__PURE__*/ formula({
  symbol: 'code_trip',
  quantity: 'code of the trip level',
  unit: '1',
  inputs: { I_set: ['A', 0, 400], A_count: ['A', 1e-5, 10], code_zero: ['1', 0, 65536] },
  expression: 'I_set / A_count + code_zero',
  compute: ({ I_set, A_count, code_zero }) => I_set / A_count + code_zero,
  source: inverse,
})

/** What the reading rises by for each ampere of real current, at its ripple where it is averaged; clipping apart. */
export const readingSlope = /*#__PURE__*/ formula({
  symbol: 'g_I',
  quantity: 'reading for each ampere',
  unit: '1',
  inputs: {
    S: ['V/A', 1e-3, 1],
    s_f: ['1', 0, 0.5],
    w_x: ['1', -0.005, 0.5],
    D_x: ['1', 0.01, 1],
    k_d: ['1', 0.05, 1],
    V_ref: ['V', 0.5, 30],
    N_bits: ['1', 8, 16],
    e_gain: ['1', -0.1, 0.1],
    A_count: ['A', 1e-5, 10],
  },
  expression: 'S * (1 - s_f) * (1 + w_x / D_x) * k_d / V_ref * 2^N_bits * (1 + e_gain) * A_count',
  compute: ({ S, s_f, w_x, D_x, k_d, V_ref, N_bits, e_gain, A_count }) =>
    ((S * (1 - s_f) * (1 + w_x / D_x) * k_d) / V_ref) * twoTo(N_bits) * (1 + e_gain) * A_count,
  source: 'derivative of the chain by the current',
})

/**
 * Current in which the trip really acts. The chain is a straight line in the current: `I_l0` is what it indicates at 0
 * without clipping, `g_I` its slope; `I_z` was taken off. Pitfall K11.
 */
export const actualTrip = /*#__PURE__*/ formula({
  symbol: 'I_trip',
  quantity: 'current at which the trip acts',
  unit: 'A',
  inputs: { I_set: ['A', 0.1, 400], I_z: ['A', -2, 2], I_l0: ['A', -2, 2], g_I: ['1', 0.5, 1.5] },
  expression: '(I_set + I_z - I_l0) / g_I',
  compute: ({ I_set, I_z, I_l0, g_I }) => (I_set + I_z - I_l0) / g_I,
  source: 'straight line, solved for the current',
})
