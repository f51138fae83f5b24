import { twoTo } from '@ohmward/adc'
import { formula } from '@ohmward/budget'
import {
  a_ol,
  alpha_G,
  beta,
  code_out,
  g,
  g_n,
  I_b,
  I_off,
  I_os,
  kappa,
  m_cm,
  N_bits,
  R_a,
  R_b,
  R_c,
  R_cn,
  R_d,
  R_leadn,
  R_out,
  R_span,
  R_swn,
  T_d,
  V_bias,
  V_cm,
  V_err,
  V_exc,
  V_excn,
  V_m,
  V_n,
  V_off,
  V_refn,
  V_sat,
  V_stray,
  V_x,
} from './symbols.js'

/*
 * The chain for a load that hangs from the rail (low-side switch). The test current flows from the rail through the
 * load, then through the reference resistor and the excitation switch to ground. A difference amplifier of four
 * resistors takes the voltage across the load: R_a from the rail to the non-inverting input, R_b from there to ground,
 * R_c from the lower sense point to the inverting input, R_d the feedback.
 */

/** Share of the rail that stands at the amplifier's inputs: their common mode follows the rail. */
export const inputShare = /*#__PURE__*/ formula({
  symbol: 'beta',
  quantity: 'share of the rail at the non-inverting input',
  unit: '1',
  inputs: { R_a, R_b },
  expression: 'R_b / (R_a + R_b)',
  compute: ({ R_a, R_b }) => R_b / (R_a + R_b),
  source: 'voltage divider',
})

/** Ratio of feedback to input resistor at the inverting side, at its temperature. */
export const differenceGain = /*#__PURE__*/ formula({
  symbol: 'g',
  quantity: 'ratio of the resistors at the inverting input',
  unit: '1',
  inputs: { R_c, R_d, alpha_G, T_d },
  expression: 'R_d / R_c * (1 + alpha_G * T_d)',
  compute: ({ R_c, R_d, alpha_G, T_d }) => (R_d / R_c) * (1 + alpha_G * T_d),
  source: 'difference amplifier of four resistors',
})

/** Voltage of the lower sense point. The amplifier's input resistor R_c feeds it too, the switch's leakage loads it. */
export const lowerVoltage = /*#__PURE__*/ formula({
  symbol: 'V_m',
  quantity: 'voltage of the lower sense point',
  unit: 'V',
  inputs: {
    V_exc,
    R_span,
    V_sat,
    R_out,
    beta,
    R_c,
    I_off,
  },
  expression: '(V_exc + R_span * (V_sat / R_out + beta * V_exc / R_c - I_off)) / (1 + R_span / R_out + R_span / R_c)',
  compute: ({ V_exc, R_span, V_sat, R_out, beta, R_c, I_off }) =>
    (V_exc + R_span * (V_sat / R_out + (beta * V_exc) / R_c - I_off)) / (1 + R_span / R_out + R_span / R_c),
  source: 'Kirchhoff, current law at the lower sense point',
})

/** Current through the load at the rail: what leaves the lower sense point by the reference, the amplifier and the switch. */
export const currentFromRail = /*#__PURE__*/ formula({
  symbol: 'I_t',
  quantity: 'test current',
  unit: 'A',
  inputs: {
    V_m: ['V', 0.4, 60],
    V_sat,
    R_out,
    beta,
    V_exc,
    R_c,
    I_off,
  },
  expression: '(V_m - V_sat) / R_out + (V_m - beta * V_exc) / R_c + I_off',
  compute: ({ V_m, V_sat, R_out, beta, V_exc, R_c, I_off }) =>
    (V_m - V_sat) / R_out + (V_m - beta * V_exc) / R_c + I_off,
  source: 'Kirchhoff, current law at the lower sense point',
})

/** Sense voltage across a load at the rail. */
export const senseVoltageAtRail = /*#__PURE__*/ formula({
  symbol: 'V_x',
  quantity: 'sense voltage',
  unit: 'V',
  inputs: { V_exc, V_m, V_stray },
  expression: 'V_exc - V_m + V_stray',
  compute: ({ V_exc, V_m, V_stray }) => V_exc - V_m + V_stray,
  source: 'Kirchhoff, voltage law',
})

/** Voltage of both amplifier inputs. */
export const commonMode = /*#__PURE__*/ formula({
  symbol: 'V_cm',
  quantity: 'common-mode voltage at the amplifier',
  unit: 'V',
  inputs: { beta, V_exc },
  expression: 'beta * V_exc',
  compute: ({ beta, V_exc }) => beta * V_exc,
  source: 'voltage divider',
})

/** What input currents drop in the four resistors. */
export const differenceBias = /*#__PURE__*/ formula({
  symbol: 'V_bias',
  quantity: 'voltage made by input currents',
  unit: 'V',
  inputs: {
    I_b,
    I_os,
    R_a,
    R_b,
    R_c,
    R_d,
  },
  expression:
    'I_b * (R_a * R_b / (R_a + R_b) - R_c * R_d / (R_c + R_d)) + I_os / 2 * (R_a * R_b / (R_a + R_b) + R_c * R_d / (R_c + R_d))',
  compute: ({ I_b, I_os, R_a, R_b, R_c, R_d }) => {
    const R_plus = (R_a * R_b) / (R_a + R_b)
    const R_minus = (R_c * R_d) / (R_c + R_d)
    return I_b * (R_plus - R_minus) + (I_os / 2) * (R_plus + R_minus)
  },
  source: 'Ohm; bias current is the mean, offset current the difference of the two input currents',
})

/** Errors of the amplifier referred to its input, the common mode's share included. */
export const differenceError = /*#__PURE__*/ formula({
  symbol: 'V_err',
  quantity: 'amplifier errors referred to input',
  unit: 'V',
  inputs: {
    V_off,
    V_bias,
    V_cm,
    m_cm,
    V_n,
  },
  expression: 'V_off + V_bias + V_cm * m_cm + V_n',
  compute: ({ V_off, V_bias, V_cm, m_cm, V_n }) => V_off + V_bias + V_cm * m_cm + V_n,
  source: 'superposition of the errors referred to input',
})

/** What the difference amplifier would put out with room enough; unequal resistor pairs let the common mode through. */
export const differenceOutput = /*#__PURE__*/ formula({
  symbol: 'V_want',
  quantity: 'output wanted of the difference amplifier',
  unit: 'V',
  inputs: {
    V_cm,
    V_err,
    g,
    V_exc,
    V_x,
    a_ol,
  },
  expression: '((V_cm + V_err) * (1 + g) - g * (V_exc - V_x)) / (1 + (1 + g) * a_ol)',
  compute: ({ V_cm, V_err, g, V_exc, V_x, a_ol }) =>
    ((V_cm + V_err) * (1 + g) - g * (V_exc - V_x)) / (1 + (1 + g) * a_ol),
  source: 'superposition; feedback equation with A = 1/a_ol',
})

/** Share of the rail across the span, as the firmware finds it. */
export const indicatedShare = /*#__PURE__*/ formula({
  symbol: 'r',
  quantity: 'share of the rail across the span, as the firmware finds it',
  unit: '1',
  inputs: {
    code_out,
    N_bits,
    V_refn,
    g_n,
    V_excn,
  },
  expression: 'code_out / 2^N_bits * V_refn / (g_n * V_excn)',
  compute: ({ code_out, N_bits, V_refn, g_n, V_excn }) => ((code_out / twoTo(N_bits)) * V_refn) / (g_n * V_excn),
  source: 'inverse of the chain with nominal constants',
})

/** Indicated resistance of a load at the rail: share of the rail over the currents that leave the lower sense point. */
export const indicatedFromRail = /*#__PURE__*/ formula({
  symbol: 'R_ind',
  quantity: 'indicated resistance',
  unit: 'ohm',
  inputs: {
    r: ['1', 0, 0.4],
    V_satn: ['V', 0, 0.1],
    V_excn,
    R_refn: ['ohm', 1, 1e4],
    R_swn,
    kappa,
    R_leadn,
    g_n,
    R_cn,
  },
  expression:
    'r / ((1 - r - V_satn / V_excn) / (R_refn + R_swn + (1 - kappa) * R_leadn) + (1 / (1 + g_n) - r) / R_cn) - kappa * R_leadn',
  compute: ({ r, V_satn, V_excn, R_refn, R_swn, kappa, R_leadn, g_n, R_cn }) =>
    r / ((1 - r - V_satn / V_excn) / (R_refn + R_swn + (1 - kappa) * R_leadn) + (1 / (1 + g_n) - r) / R_cn) -
    kappa * R_leadn,
  source: 'Kirchhoff, current law, solved for the load',
})
