import { formula } from '@ohmward/budget'

/** Offset of the amplifier at its temperature and supply. `m_ps` is the signed reciprocal of the supply rejection ratio. */
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
  },
  expression: 'V_os + D_os * T_d + (V_amp - V_ps) * m_ps',
  compute: (x) => x.V_os + x.D_os * x.T_d + (x.V_amp - x.V_ps) * x.m_ps,
  source: 'definitions of drift and supply rejection',
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

/** Voltage that the ideal amplifier would see. `m_cm` is the signed reciprocal of the common-mode rejection ratio. */
export const inputVoltage = /*#__PURE__*/ formula({
  symbol: 'V_in',
  quantity: 'input voltage with the errors',
  unit: 'V',
  inputs: {
    V_x: ['V', 0, 10],
    m_cm: ['1', -1e-2, 1e-2],
    V_off: ['V', -2e-2, 2e-2],
    V_bias: ['V', -1e-2, 1e-2],
    V_n: ['V', -1e-3, 1e-3],
  },
  expression: 'V_x * (1 + m_cm) + V_off + V_bias + V_n',
  compute: (x) => x.V_x * (1 + x.m_cm) + x.V_off + x.V_bias + x.V_n,
  source: 'superposition',
})

/** Gain that the two resistors set, at their temperature. `alpha_G` is the drift of their ratio. */
export const resistorGain = /*#__PURE__*/ formula({
  symbol: 'G',
  quantity: 'gain set by the resistors',
  unit: '1',
  inputs: { R_f: ['ohm', 10, 1e7], R_g: ['ohm', 10, 1e6], alpha_G: ['1/K', -5e-4, 5e-4], T_d: ['K', -65, 100] },
  expression: '1 + R_f / R_g * (1 + alpha_G * T_d)',
  compute: (x) => 1 + (x.R_f / x.R_g) * (1 + x.alpha_G * x.T_d),
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
  quantity: 'output wanted of the amplifier',
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
