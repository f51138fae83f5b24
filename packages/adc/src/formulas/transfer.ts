import type { Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'
import { twoTo } from '../two-to.js'

const source = 'ideal uniform converter, 2^N steps over the reference; IEEE 1241, transfer characteristic (from memory)'

/** One count at the converter's input: the reference over 2^N, not over 2^N - 1. */
export const countVoltage = /*#__PURE__*/ formula({
  symbol: 'V_LSB',
  quantity: 'voltage of one count',
  unit: 'V',
  inputs: { V_ref: ['V', 0.1, 10], N_bits: ['1', 1, 32] },
  expression: 'V_ref / 2^N_bits',
  compute: ({ V_ref, N_bits }) => V_ref / twoTo(N_bits),
  source,
})

/** The largest code. An input at or above it is clipped: the reference itself has no code. */
export const fullScaleCode = /*#__PURE__*/ formula({
  symbol: 'code_max',
  quantity: 'largest code',
  unit: '1',
  inputs: { N_bits: ['1', 1, 32] },
  expression: '2^N_bits - 1',
  compute: ({ N_bits }) => twoTo(N_bits) - 1,
  source,
})

/** Where the pin's voltage stands on the scale of counts: continuous and not clipped, for budgets. */
export const idealCode = /*#__PURE__*/ formula({
  symbol: 'code_ideal',
  quantity: 'input on the scale of counts',
  unit: '1',
  inputs: { V_pin: ['V', -1, 10], V_ref: ['V', 0.1, 10], N_bits: ['1', 1, 32] },
  expression: 'V_pin / V_ref * 2^N_bits',
  compute: ({ V_pin, V_ref, N_bits }) => (V_pin / V_ref) * twoTo(N_bits),
  source,
})

/**
 * The code that a real converter gives after the half-count correction, continuous and not clipped: the offset acts
 * first, then the gain, as data sheets define them; `e_q` is the rectangular half count that rounding leaves, `e_n`
 * the noise.
 */
export const convertedCode = /*#__PURE__*/ formula({
  symbol: 'code_c',
  quantity: 'converted code, continuous',
  unit: '1',
  inputs: {
    code_ideal: ['1', -4096, 4294967296],
    e_gain: ['1', -0.1, 0.1],
    e_offset: ['1', -1000, 1000],
    e_INL: ['1', -1000, 1000],
    e_q: ['1', -0.5, 0.5],
    e_n: ['1', -100, 100],
  },
  expression: 'code_ideal * (1 + e_gain) + e_offset + e_INL + e_q + e_n',
  compute: ({ code_ideal, e_gain, e_offset, e_INL, e_q, e_n }) =>
    code_ideal * (1 + e_gain) + e_offset + e_INL + e_q + e_n,
  source: 'definitions of offset, gain and integral nonlinearity in converter data sheets; common practice, no source',
})

/**
 * The continuous code kept inside what the converter can give: `h_code` to `2^N - 1 + h_code`, where `h_code` is the
 * half count that firmware adds (0.5 for a truncating converter, 0 for a centred one).
 */
export const clippedCode = /*#__PURE__*/ formula({
  symbol: 'code_out',
  quantity: 'code, clipped to the scale',
  unit: '1',
  inputs: { code_c: ['1', -4096, 4294967296], N_bits: ['1', 1, 32], h_code: ['1', 0, 0.5] },
  expression: 'min(max(code_c, h_code), 2^N_bits - 1 + h_code)',
  compute: ({ code_c, N_bits, h_code }) => Math.min(Math.max(code_c, h_code), twoTo(N_bits) - 1 + h_code),
  source,
  smooth: false,
})

/**
 * The integer code, clipped. `h_in` moves the transitions: 0 for a converter that truncates (code k from k to k + 1
 * counts, as successive-approximation parts do), 0.5 for one whose codes are centred (k - ½ to k + ½).
 */
export const steppedCode = /*#__PURE__*/ formula({
  symbol: 'code_n',
  quantity: 'integer code',
  unit: '1',
  inputs: { V_pin: ['V', -1, 10], V_ref: ['V', 0.1, 10], N_bits: ['1', 1, 32], h_in: ['1', 0, 0.5] },
  expression: 'min(max(floor(V_pin / V_ref * 2^N_bits + h_in), 0), 2^N_bits - 1)',
  compute: ({ V_pin, V_ref, N_bits, h_in }) =>
    Math.min(Math.max(Math.floor((V_pin / V_ref) * twoTo(N_bits) + h_in), 0), twoTo(N_bits) - 1),
  source,
  smooth: false,
})

/** The voltage that a code stands for: the middle of its step, when `h_code` is the half count that belongs to it. */
export const codeVoltage = /*#__PURE__*/ formula({
  symbol: 'V_code',
  quantity: 'voltage of a code',
  unit: 'V',
  inputs: { code: ['1', 0, 4294967295], h_code: ['1', 0, 0.5], V_ref: ['V', 0.1, 10], N_bits: ['1', 1, 32] },
  expression: '(code + h_code) * V_ref / 2^N_bits',
  compute: ({ code, h_code, V_ref, N_bits }) => ((code + h_code) * V_ref) / twoTo(N_bits),
  source,
})

/** An absolute reference at a temperature: its value (with its tolerance) and its drift over `dT` kelvin. */
export const absoluteReference = /*#__PURE__*/ formula({
  symbol: 'V_ref',
  quantity: 'reference voltage',
  unit: 'V',
  inputs: { V_ref0: ['V', 0.1, 10], TC_ref: ['1/K', -1e-3, 1e-3], dT: ['K', -100, 150] },
  expression: 'V_ref0 * (1 + TC_ref * dT)',
  compute: ({ V_ref0, TC_ref, dT }) => V_ref0 * (1 + TC_ref * dT),
  source: 'definition of a temperature coefficient',
})

/** Reference of a converter that counts against the rail: one variable with all that is the rail. */
export const referenceOnRail = /*#__PURE__*/ formula({
  symbol: 'V_ref',
  quantity: 'reference of the converter, the rail',
  unit: 'V',
  inputs: { V_rail: ['V', 0.5, 60] },
  expression: 'V_rail',
  compute: (x) => x.V_rail,
  source: 'one node',
})

/** A reference of its own, as warm as the board. */
export const ownReference = /*#__PURE__*/ at(absoluteReference, 'V_ref', (x: Values<'V_ref0' | 'TC_ref' | 'T_d'>) => ({
  V_ref0: x.V_ref0,
  TC_ref: x.TC_ref,
  dT: x.T_d,
}))
