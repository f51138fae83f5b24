import { formula } from '@ohmward/budget/formula'

/**
 * Offset of the amplifier at its temperature and supply, and after its life. `m_ps` is the signed reciprocal of the supply
 * rejection ratio.
 */
export const inputOffset = /*#__PURE__*/ formula({
  symbol: 'V_off',
  quantity: 'offset at this temperature and supply',
  unit: 'V',
  inputs: {
    V_os: ['V', -2e-2, 2e-2],
    D_os: ['V/K', -5e-5, 5e-5],
    T_d: ['K', -65, 100],
    V_amp: ['V', 1, 36],
    V_ps: ['V', 1, 36],
    m_ps: ['1', -1e-2, 1e-2],
    V_age: ['V', -1e-2, 1e-2],
  },
  expression: 'V_os + D_os * T_d + (V_amp - V_ps) * m_ps + V_age',
  compute: (x) => x.V_os + x.D_os * x.T_d + (x.V_amp - x.V_ps) * x.m_ps + x.V_age,
  source: 'definitions of drift and supply rejection',
})

/** Feedback resistor of a matched network: the other resistor of the pair times their ratio, as exact as that is matched. */
export const matchedFeedback = /*#__PURE__*/ formula({
  symbol: 'R_f',
  quantity: 'feedback resistor, matched',
  unit: 'ohm',
  inputs: { R_g: ['ohm', 10, 1e6], n_net: ['1', 0.1, 1e3], e_net: ['1', -0.02, 0.02] },
  expression: 'R_g * n_net * (1 + e_net)',
  compute: (x) => x.R_g * x.n_net * (1 + x.e_net),
  source: 'data sheet of a resistor network: ratio tolerance',
})

/** Resistance that the inverting input sees. */
export const feedbackParallel = /*#__PURE__*/ formula({
  symbol: 'R_fg',
  quantity: 'resistance at the inverting input',
  unit: 'ohm',
  inputs: { R_f: ['ohm', 10, 1e7], R_g: ['ohm', 10, 1e6] },
  expression: 'R_f * R_g / (R_f + R_g)',
  compute: (x) => (x.R_f * x.R_g) / (x.R_f + x.R_g),
  source: 'Kirchhoff',
})

/** What input currents drop in the resistances that they flow through, clamp leakage included. */
export const biasVoltage = /*#__PURE__*/ formula({
  symbol: 'V_bias',
  quantity: 'voltage made by input currents',
  unit: 'V',
  inputs: {
    I_b: ['A', -1e-6, 1e-6],
    I_os: ['A', -1e-6, 1e-6],
    I_leak: ['A', -1e-5, 1e-5],
    R_p: ['ohm', 0, 1e5],
    R_fg: ['ohm', 1, 1e6],
  },
  expression: 'I_b * (R_p - R_fg) + I_os / 2 * (R_p + R_fg) + I_leak * R_p',
  compute: (x) => x.I_b * (x.R_p - x.R_fg) + (x.I_os / 2) * (x.R_p + x.R_fg) + x.I_leak * x.R_p,
  source: 'Ohm; definitions of bias and offset current',
})

/** Voltage of the non-inverting input's pin, which bias current and the clamp's leakage move away from the sense point. */
export const inputPin = /*#__PURE__*/ formula({
  symbol: 'V_pos',
  quantity: 'voltage of the non-inverting input',
  unit: 'V',
  inputs: {
    V_x: ['V', 0, 10],
    I_b: ['A', -1e-6, 1e-6],
    I_os: ['A', -1e-6, 1e-6],
    I_leak: ['A', -1e-5, 1e-5],
    R_p: ['ohm', 0, 1e5],
  },
  expression: 'V_x + (I_b + I_os / 2 + I_leak) * R_p',
  compute: (x) => x.V_x + (x.I_b + x.I_os / 2 + x.I_leak) * x.R_p,
  source: 'Ohm; definitions of bias and offset current',
})

/** A further error that is stated as a current into the sense input, as a voltage there. */
export const furtherShift = /*#__PURE__*/ formula({
  symbol: 'V_addI',
  quantity: 'further error, as voltage at the input',
  unit: 'V',
  inputs: { I_add: ['A', 0, 1e-5], R_in: ['ohm', 0, 1e5] },
  expression: 'I_add * R_in',
  compute: (x) => x.I_add * x.R_in,
  source: 'Ohm',
})

/**
 * Voltage that the ideal amplifier would see. `m_cm` is the signed reciprocal of the common-mode rejection ratio: the offset
 * moves by it with every volt between the common mode here and `V_cms`, at which the offset is specified. `V_add` is what
 * else the data sheet states.
 */
export const inputVoltage = /*#__PURE__*/ formula({
  symbol: 'V_in',
  quantity: 'input voltage with the errors',
  unit: 'V',
  inputs: {
    V_x: ['V', 0, 10],
    V_cms: ['V', 0, 30],
    m_cm: ['1', -1e-2, 1e-2],
    V_off: ['V', -2e-2, 2e-2],
    V_bias: ['V', -1e-2, 1e-2],
    V_n: ['V', -1e-3, 1e-3],
    V_add: ['V', -1e-2, 1e-2],
  },
  expression: 'V_x + (V_x - V_cms) * m_cm + V_off + V_bias + V_n + V_add',
  compute: (x) => x.V_x + (x.V_x - x.V_cms) * x.m_cm + x.V_off + x.V_bias + x.V_n + x.V_add,
  source: 'superposition; definition of common-mode rejection',
})

/** Gain that the two resistors set, at their temperature and age. `alpha_G` is the drift of their ratio, `d_G` its ageing. */
export const resistorGain = /*#__PURE__*/ formula({
  symbol: 'G',
  quantity: 'gain set by the resistors',
  unit: '1',
  inputs: {
    R_f: ['ohm', 10, 1e7],
    R_g: ['ohm', 10, 1e6],
    alpha_G: ['1/K', -5e-4, 5e-4],
    T_d: ['K', -65, 100],
    d_G: ['1', -0.05, 0.05],
  },
  expression: '1 + R_f / R_g * (1 + alpha_G * T_d + d_G)',
  compute: (x) => 1 + (x.R_f / x.R_g) * (1 + x.alpha_G * x.T_d + x.d_G),
  source: 'ideal amplifier',
})

/** Gain with a finite open-loop gain, whose reciprocal is `a_ol`. */
export const actualGain = /*#__PURE__*/ formula({
  symbol: 'G_a',
  quantity: 'gain with finite open-loop gain',
  unit: '1',
  inputs: { G: ['1', 1, 1e4], a_ol: ['1', 0, 1e-2] },
  expression: 'G / (1 + G * a_ol)',
  compute: (x) => x.G / (1 + x.G * x.a_ol),
  source: 'feedback equation',
})

/** What the amplifier would put out with room enough; the pedestal is a share of the reference voltage. */
export const wantedOutput = /*#__PURE__*/ formula({
  symbol: 'V_want',
  quantity: 'output required of the amplifier',
  unit: 'V',
  inputs: { G_a: ['1', 1, 1e4], V_in: ['V', -0.1, 10], p_ped: ['1', 0, 0.5], V_ref: ['V', 0.5, 36] },
  expression: 'G_a * V_in + p_ped * V_ref',
  compute: (x) => x.G_a * x.V_in + x.p_ped * x.V_ref,
  source: 'superposition',
})

/** Highest output that the data sheet guarantees. */
export const highestOutput = /*#__PURE__*/ formula({
  symbol: 'V_hi',
  quantity: 'highest output',
  unit: 'V',
  inputs: { V_amp: ['V', 1, 36], V_oh: ['V', 0, 5] },
  expression: 'V_amp - V_oh',
  compute: (x) => x.V_amp - x.V_oh,
  source: 'data sheet: output swing',
})

/** The output as it is: held between the lowest and the highest that the amplifier reaches. */
export const limitedOutput = /*#__PURE__*/ formula({
  symbol: 'V_out',
  quantity: 'output of the amplifier',
  unit: 'V',
  inputs: { V_want: ['V', -36, 36], V_ol: ['V', 0, 2], V_hi: ['V', 0, 36] },
  expression: 'max(V_ol, min(V_want, V_hi))',
  compute: (x) => Math.max(x.V_ol, Math.min(x.V_want, x.V_hi)),
  source: 'data sheet: output swing',
  smooth: false,
})
