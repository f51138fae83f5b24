import { formula } from '@ohmward/budget'
import {
  a_ol,
  alpha_G,
  D_os,
  G,
  G_a,
  I_b,
  I_leak,
  I_os,
  m_cm,
  m_ps,
  p_ped,
  R_f,
  R_fg,
  R_g,
  R_p,
  T_d,
  V_amp,
  V_bias,
  V_hi,
  V_in,
  V_n,
  V_off,
  V_oh,
  V_ol,
  V_os,
  V_ps,
  V_ref,
  V_want,
  V_x,
} from './symbols.js'

/** Offset of the amplifier at its temperature and supply. `m_ps` is the signed reciprocal of the supply rejection ratio. */
export const inputOffset = /*#__PURE__*/ formula({
  symbol: 'V_off',
  quantity: 'offset at this temperature and supply',
  unit: 'V',
  inputs: {
    V_os,
    D_os,
    T_d,
    V_amp,
    V_ps,
    m_ps,
  },
  expression: 'V_os + D_os * T_d + (V_amp - V_ps) * m_ps',
  compute: ({ V_os, D_os, T_d, V_amp, V_ps, m_ps }) => V_os + D_os * T_d + (V_amp - V_ps) * m_ps,
  source: 'definitions of offset drift and supply rejection ratio',
})

/** Resistance that the inverting input sees. */
export const feedbackParallel = /*#__PURE__*/ formula({
  symbol: 'R_fg',
  quantity: 'resistance seen by the inverting input',
  unit: 'ohm',
  inputs: { R_f, R_g },
  expression: 'R_f * R_g / (R_f + R_g)',
  compute: ({ R_f, R_g }) => (R_f * R_g) / (R_f + R_g),
  source: 'resistors in parallel',
})

/** What input currents drop in the resistances that they flow through, clamp leakage included. */
export const biasVoltage = /*#__PURE__*/ formula({
  symbol: 'V_bias',
  quantity: 'voltage made by input and leakage currents',
  unit: 'V',
  inputs: {
    I_b,
    I_os,
    I_leak,
    R_p,
    R_fg,
  },
  expression: 'I_b * (R_p - R_fg) + I_os / 2 * (R_p + R_fg) + I_leak * R_p',
  compute: ({ I_b, I_os, I_leak, R_p, R_fg }) => I_b * (R_p - R_fg) + (I_os / 2) * (R_p + R_fg) + I_leak * R_p,
  source: 'Ohm; bias current is the mean, offset current the difference of the two input currents',
})

/** Voltage that the ideal amplifier would see. `m_cm` is the signed reciprocal of the common-mode rejection ratio. */
export const inputVoltage = /*#__PURE__*/ formula({
  symbol: 'V_in',
  quantity: 'voltage at the ideal amplifier, errors referred to input',
  unit: 'V',
  inputs: {
    V_x,
    m_cm,
    V_off,
    V_bias,
    V_n,
  },
  expression: 'V_x * (1 + m_cm) + V_off + V_bias + V_n',
  compute: ({ V_x, m_cm, V_off, V_bias, V_n }) => V_x * (1 + m_cm) + V_off + V_bias + V_n,
  source: 'superposition of the errors referred to input',
})

/** Gain that the two resistors set, at their temperature. `alpha_G` is the drift of their ratio. */
export const resistorGain = /*#__PURE__*/ formula({
  symbol: 'G',
  quantity: 'gain set by the resistors',
  unit: '1',
  inputs: { R_f, R_g, alpha_G, T_d },
  expression: '1 + R_f / R_g * (1 + alpha_G * T_d)',
  compute: ({ R_f, R_g, alpha_G, T_d }) => 1 + (R_f / R_g) * (1 + alpha_G * T_d),
  source: 'non-inverting amplifier, ideal',
})

/** Gain with a finite open-loop gain, whose reciprocal is `a_ol`. */
export const actualGain = /*#__PURE__*/ formula({
  symbol: 'G_a',
  quantity: 'gain with finite open-loop gain',
  unit: '1',
  inputs: { G, a_ol },
  expression: 'G / (1 + G * a_ol)',
  compute: ({ G, a_ol }) => G / (1 + G * a_ol),
  source: 'feedback equation with A = 1/a_ol',
})

/** What the amplifier would put out with room enough; the pedestal is a share of the reference voltage. */
export const wantedOutput = /*#__PURE__*/ formula({
  symbol: 'V_want',
  quantity: 'output wanted of the amplifier',
  unit: 'V',
  inputs: { G_a, V_in, p_ped, V_ref },
  expression: 'G_a * V_in + p_ped * V_ref',
  compute: ({ G_a, V_in, p_ped, V_ref }) => G_a * V_in + p_ped * V_ref,
  source: 'superposition',
})

/** Highest output that the data sheet guarantees. */
export const highestOutput = /*#__PURE__*/ formula({
  symbol: 'V_hi',
  quantity: 'highest output',
  unit: 'V',
  inputs: { V_amp, V_oh },
  expression: 'V_amp - V_oh',
  compute: ({ V_amp, V_oh }) => V_amp - V_oh,
  source: 'data sheet: output swing from the positive supply',
})

/** The output as it is: held between the lowest and the highest that the amplifier reaches. */
export const limitedOutput = /*#__PURE__*/ formula({
  symbol: 'V_out',
  quantity: 'output of the amplifier',
  unit: 'V',
  inputs: { V_want, V_ol, V_hi },
  expression: 'max(V_ol, min(V_want, V_hi))',
  compute: ({ V_want, V_ol, V_hi }) => Math.max(V_ol, Math.min(V_want, V_hi)),
  source: 'data sheet: output swing',
  smooth: false,
})
