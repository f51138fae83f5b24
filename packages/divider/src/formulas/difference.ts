import { twoTo } from '@ohmward/adc/formulas'
import { formula } from '@ohmward/budget/formula'

/*
 * The chain for a load that hangs from the rail (low-side switch). The test current flows from the rail through the
 * load, then through the reference resistor and the excitation switch to ground. A difference amplifier of four
 * resistors takes the voltage across the load: R_a from the rail to the non-inverting input, R_b from there to ground,
 * R_c from the lower sense point to the inverting input, R_d the feedback.
 */

/** Share of the rail that stands at the amplifier's inputs, at its temperature and age: their common mode follows the rail. */
export const inputShare = /*#__PURE__*/ formula({
  symbol: 'beta',
  quantity: 'share of the rail at the inputs',
  unit: '1',
  inputs: {
    R_a: ['ohm', 10, 1e6],
    R_b: ['ohm', 10, 1e7],
    alpha_P: ['1/K', -5e-4, 5e-4],
    T_d: ['K', -65, 100],
    d_P: ['1', -0.05, 0.05],
  },
  expression: 'R_b / (R_a / (1 + alpha_P * T_d + d_P) + R_b)',
  compute: (x) => x.R_b / (x.R_a / (1 + x.alpha_P * x.T_d + x.d_P) + x.R_b),
  source: 'Kirchhoff',
})

/** Ratio of feedback to input resistor at the inverting side, at its temperature and age. */
export const differenceGain = /*#__PURE__*/ formula({
  symbol: 'g',
  quantity: 'ratio at the inverting input',
  unit: '1',
  inputs: {
    R_c: ['ohm', 10, 1e6],
    R_d: ['ohm', 10, 1e7],
    alpha_G: ['1/K', -5e-4, 5e-4],
    T_d: ['K', -65, 100],
    d_G: ['1', -0.05, 0.05],
  },
  expression: 'R_d / R_c * (1 + alpha_G * T_d + d_G)',
  compute: (x) => (x.R_d / x.R_c) * (1 + x.alpha_G * x.T_d + x.d_G),
  source: 'ideal amplifier',
})

/** Resistor R_b of a matched network: R_a times the ratio of the pair, as exact as that is matched. */
export const matchedUpper = /*#__PURE__*/ formula({
  symbol: 'R_b',
  quantity: 'resistor to ground, matched',
  unit: 'ohm',
  inputs: { R_a: ['ohm', 10, 1e6], n_net: ['1', 0.1, 1e3], e_netP: ['1', -0.02, 0.02] },
  expression: 'R_a * n_net * (1 + e_netP)',
  compute: (x) => x.R_a * x.n_net * (1 + x.e_netP),
  source: 'data sheet of a resistor network: ratio tolerance',
})

/** Resistor R_d of a matched network: R_c times the ratio of the pair, as exact as that is matched. */
export const matchedLower = /*#__PURE__*/ formula({
  symbol: 'R_d',
  quantity: 'feedback resistor, matched',
  unit: 'ohm',
  inputs: { R_c: ['ohm', 10, 1e6], n_net: ['1', 0.1, 1e3], e_net: ['1', -0.02, 0.02] },
  expression: 'R_c * n_net * (1 + e_net)',
  compute: (x) => x.R_c * x.n_net * (1 + x.e_net),
  source: 'data sheet of a resistor network: ratio tolerance',
})

/**
 * Everything in the loop that is not between the sense points, load at the rail: the test current returns through the
 * ground that it shares.
 */
export const outerAtRail = /*#__PURE__*/ formula({
  symbol: 'R_out',
  quantity: 'resistance outside the span, shared ground included',
  unit: 'ohm',
  inputs: {
    R_warm: ['ohm', 1, 1e5],
    R_sw: ['ohm', 0, 100],
    kappa: ['1', 0, 1],
    R_wire: ['ohm', 0, 10],
    R_sh: ['ohm', 0, 0.1],
  },
  expression: 'R_warm + R_sw + (1 - kappa) * R_wire + R_sh',
  compute: (x) => x.R_warm + x.R_sw + (1 - x.kappa) * x.R_wire + x.R_sh,
  source: 'Kirchhoff',
})

/** Voltage of the lower sense point. The amplifier's input resistor R_c feeds it too, the switch's leakage loads it. */
export const lowerVoltage = /*#__PURE__*/ formula({
  symbol: 'V_m',
  quantity: 'voltage of the lower sense point',
  unit: 'V',
  inputs: {
    V_exc: ['V', 0.5, 60],
    R_span: ['ohm', 0, 100],
    V_sat: ['V', 0, 0.4],
    R_out: ['ohm', 1, 1e5],
    beta: ['1', 0.1, 1],
    R_c: ['ohm', 10, 1e6],
    I_off: ['A', 0, 1e-2],
  },
  expression: '(V_exc + R_span * (V_sat / R_out + beta * V_exc / R_c - I_off)) / (1 + R_span / R_out + R_span / R_c)',
  compute: (x) =>
    (x.V_exc + x.R_span * (x.V_sat / x.R_out + (x.beta * x.V_exc) / x.R_c - x.I_off)) /
    (1 + x.R_span / x.R_out + x.R_span / x.R_c),
  source: 'Kirchhoff',
})

/** Current through the load at the rail: what leaves the lower sense point by the reference, the amplifier and the switch. */
export const currentFromRail = /*#__PURE__*/ formula({
  symbol: 'I_t',
  quantity: 'test current',
  unit: 'A',
  inputs: {
    V_m: ['V', 0.4, 60],
    V_sat: ['V', 0, 0.4],
    R_out: ['ohm', 1, 1e5],
    beta: ['1', 0.1, 1],
    V_exc: ['V', 0.5, 60],
    R_c: ['ohm', 10, 1e6],
    I_off: ['A', 0, 1e-2],
  },
  expression: '(V_m - V_sat) / R_out + (V_m - beta * V_exc) / R_c + I_off',
  compute: (x) => (x.V_m - x.V_sat) / x.R_out + (x.V_m - x.beta * x.V_exc) / x.R_c + x.I_off,
  source: 'Kirchhoff',
})

/** Current through the reference resistor, load at the rail: that of the load, less what the amplifier takes. */
export const referenceCurrent = /*#__PURE__*/ formula({
  symbol: 'I_r',
  quantity: 'current through the reference resistor',
  unit: 'A',
  inputs: { V_m: ['V', 0.4, 60], V_sat: ['V', 0, 0.4], R_out: ['ohm', 1, 1e5] },
  expression: '(V_m - V_sat) / R_out',
  compute: (x) => (x.V_m - x.V_sat) / x.R_out,
  source: 'Ohm',
})

/** Sense voltage across a load at the rail. */
export const senseVoltageAtRail = /*#__PURE__*/ formula({
  symbol: 'V_x',
  quantity: 'sense voltage',
  unit: 'V',
  inputs: { V_exc: ['V', 0.5, 60], V_m: ['V', 0, 60], V_stray: ['V', -1e-2, 1e-2] },
  expression: 'V_exc - V_m + V_stray',
  compute: (x) => x.V_exc - x.V_m + x.V_stray,
  source: 'Kirchhoff',
})

/** Voltage of both amplifier inputs. */
export const commonMode = /*#__PURE__*/ formula({
  symbol: 'V_cm',
  quantity: 'common-mode voltage at the amplifier',
  unit: 'V',
  inputs: { beta: ['1', 0.1, 1], V_exc: ['V', 0.5, 60] },
  expression: 'beta * V_exc',
  compute: (x) => x.beta * x.V_exc,
  source: 'Kirchhoff',
})

/** The same with what bias current adds to it in the resistors. */
export const differencePin = /*#__PURE__*/ formula({
  symbol: 'V_pos',
  quantity: 'voltage of the non-inverting input',
  unit: 'V',
  inputs: {
    V_cm: ['V', 0, 60],
    I_b: ['A', -1e-6, 1e-6],
    I_os: ['A', -1e-6, 1e-6],
    R_a: ['ohm', 10, 1e6],
    R_b: ['ohm', 10, 1e7],
  },
  expression: 'V_cm + (I_b + I_os / 2) * R_a * R_b / (R_a + R_b)',
  compute: (x) => x.V_cm + ((x.I_b + x.I_os / 2) * x.R_a * x.R_b) / (x.R_a + x.R_b),
  source: 'Ohm; definitions of bias and offset current',
})

/** What input currents drop in the four resistors. */
export const differenceBias = /*#__PURE__*/ formula({
  symbol: 'V_bias',
  quantity: 'voltage made by input currents',
  unit: 'V',
  inputs: {
    I_b: ['A', -1e-6, 1e-6],
    I_os: ['A', -1e-6, 1e-6],
    R_a: ['ohm', 10, 1e6],
    R_b: ['ohm', 10, 1e7],
    R_c: ['ohm', 10, 1e6],
    R_d: ['ohm', 10, 1e7],
  },
  expression:
    'I_b * (R_a * R_b / (R_a + R_b) - R_c * R_d / (R_c + R_d)) + I_os / 2 * (R_a * R_b / (R_a + R_b) + R_c * R_d / (R_c + R_d))',
  compute: ({ I_b, I_os, R_a, R_b, R_c, R_d }) => {
    const R_plus = (R_a * R_b) / (R_a + R_b)
    const R_minus = (R_c * R_d) / (R_c + R_d)
    return I_b * (R_plus - R_minus) + (I_os / 2) * (R_plus + R_minus)
  },
  source: 'Ohm; definitions of bias and offset current',
})

/** Errors of the amplifier referred to its input, as in {@link inputVoltage}. */
export const differenceError = /*#__PURE__*/ formula({
  symbol: 'V_err',
  quantity: 'errors referred to input',
  unit: 'V',
  inputs: {
    V_off: ['V', -2e-2, 2e-2],
    V_bias: ['V', -1e-2, 1e-2],
    V_cm: ['V', 0, 60],
    V_cms: ['V', 0, 30],
    m_cm: ['1', -1e-2, 1e-2],
    V_n: ['V', -1e-3, 1e-3],
    V_add: ['V', -1e-2, 1e-2],
  },
  expression: 'V_off + V_bias + (V_cm - V_cms) * m_cm + V_n + V_add',
  compute: (x) => x.V_off + x.V_bias + (x.V_cm - x.V_cms) * x.m_cm + x.V_n + x.V_add,
  source: 'superposition; definition of common-mode rejection',
})

/** What the difference amplifier would put out with room enough; unequal resistor pairs let the common mode through. */
export const differenceOutput = /*#__PURE__*/ formula({
  symbol: 'V_want',
  quantity: 'output required of the amplifier',
  unit: 'V',
  inputs: {
    V_cm: ['V', 0, 60],
    V_err: ['V', -2e-2, 2e-2],
    g: ['1', 0.1, 1e3],
    V_exc: ['V', 0.5, 60],
    V_x: ['V', 0, 10],
    a_ol: ['1', 0, 1e-2],
  },
  expression: '((V_cm + V_err) * (1 + g) - g * (V_exc - V_x)) / (1 + (1 + g) * a_ol)',
  compute: (x) => ((x.V_cm + x.V_err) * (1 + x.g) - x.g * (x.V_exc - x.V_x)) / (1 + (1 + x.g) * x.a_ol),
  source: 'superposition; feedback equation',
})

/** Share of the rail across the span, as the firmware finds it. */
export const indicatedShare = /*#__PURE__*/ formula({
  symbol: 'r',
  quantity: 'share of the rail across the load, indicated',
  unit: '1',
  inputs: {
    code_out: ['1', 0, 65535],
    N_bits: ['1', 8, 16],
    V_refn: ['V', 0.5, 36],
    g_n: ['1', 0.1, 1e3],
    V_excn: ['V', 1, 60],
  },
  expression: 'code_out / 2^N_bits * V_refn / (g_n * V_excn)',
  compute: (x) => ((x.code_out / twoTo(x.N_bits)) * x.V_refn) / (x.g_n * x.V_excn),
  source: 'inverse of the chain with nominal constants',
})

/**
 * Indicated resistance of a load at the rail: share of the rail over the currents that leave the lower sense point, which
 * count for a thousandth of what they are without a load at least.
 */
export const indicatedFromRail = /*#__PURE__*/ formula({
  symbol: 'R_ind',
  quantity: 'indicated resistance',
  unit: 'ohm',
  inputs: {
    r: ['1', 0, 0.4],
    V_satn: ['V', 0, 0.1],
    V_excn: ['V', 1, 60],
    R_refn: ['ohm', 1, 1e4],
    R_swn: ['ohm', 0, 100],
    kappa: ['1', 0, 1],
    R_leadn: ['ohm', 0, 10],
    g_n: ['1', 0.1, 1e3],
    R_cn: ['ohm', 1e3, 1e6],
  },
  expression:
    'r / max((1 - r - V_satn / V_excn) / (R_refn + R_swn + (1 - kappa) * R_leadn) + (1 / (1 + g_n) - r) / R_cn, 0.001 / (R_refn + R_swn + (1 - kappa) * R_leadn)) - kappa * R_leadn',
  compute: (x) => {
    const R_loop = x.R_refn + x.R_swn + (1 - x.kappa) * x.R_leadn
    const out = (1 - x.r - x.V_satn / x.V_excn) / R_loop + (1 / (1 + x.g_n) - x.r) / x.R_cn
    return x.r / Math.max(out, 0.001 / R_loop) - x.kappa * x.R_leadn
  },
  source: 'Kirchhoff, solved for the load',
  smooth: false,
})

/** Current that the output sinks out of the upper divider at its lowest level. Pitfall A02. */
export const sinkCurrentNeeded = /*#__PURE__*/ formula({
  symbol: 'I_sink',
  quantity: 'output sink current',
  unit: 'A',
  inputs: { V_cm: ['V', 0, 60], V_ol: ['V', 0, 2], R_d: ['ohm', 1e3, 1e7] },
  expression: '(V_cm - V_ol) / R_d',
  compute: (x) => (x.V_cm - x.V_ol) / x.R_d,
  source: 'Ohm',
})
