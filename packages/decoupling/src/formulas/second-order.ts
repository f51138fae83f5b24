import { formula } from '@ohmward/budget/formula'

const textbook = 'linear second-order system, textbook form'
const circuit = "Kirchhoff's laws, loop inductance and one capacitor, solved"
const V_rest = ['V', 1, 15] as const
const I_step = ['A', 0.01, 2] as const
const R_s = ['ohm', 0.005, 0.5] as const
const ESR = ['ohm', 0.001, 0.5] as const
const C = ['F', 1e-6, 1e-2] as const
const L = ['H', 1e-8, 1e-5] as const
const t = ['s', 0, 1e-3] as const

/** Undamped angular frequency of loop and capacitor. */
export const angularFrequency = /*#__PURE__*/ formula({
  symbol: 'omega_0',
  quantity: 'undamped angular frequency',
  unit: 's^-1',
  inputs: { L, C },
  expression: '1 / sqrt(L * C)',
  compute: ({ L, C }) => 1 / Math.sqrt(L * C),
  source: textbook,
})

/** Damping ratio: below 1 the rail rings. */
export const dampingRatio = /*#__PURE__*/ formula({
  symbol: 'zeta',
  quantity: 'damping ratio',
  unit: '1',
  inputs: { R_s, ESR, L, C },
  expression: '(R_s + ESR) / 2 * sqrt(C / L)',
  compute: ({ R_s, ESR, L, C }) => ((R_s + ESR) / 2) * Math.sqrt(C / L),
  source: textbook,
})

/** Decay rate of the ringing's envelope. */
export const decayRate = /*#__PURE__*/ formula({
  symbol: 'alpha',
  quantity: 'decay rate',
  unit: 's^-1',
  inputs: { R_s, ESR, L },
  expression: '(R_s + ESR) / (2 * L)',
  compute: ({ R_s, ESR, L }) => (R_s + ESR) / (2 * L),
  source: textbook,
})

/** Angular frequency of the ringing, where the damping ratio is below 1. */
export const ringingFrequency = /*#__PURE__*/ formula({
  symbol: 'omega_d',
  quantity: 'angular frequency of the ringing',
  unit: 's^-1',
  inputs: { omega_0: ['s^-1', 1e3, 1e7], zeta: ['1', 0, 0.99] },
  expression: 'omega_0 * sqrt(1 - zeta^2)',
  compute: ({ omega_0, zeta }) => omega_0 * Math.sqrt(1 - zeta * zeta),
  source: textbook,
})

/** First peak above the final value, as a part of the step, where the damping ratio is below 1. */
export const overshoot = /*#__PURE__*/ formula({
  symbol: 'k_over',
  quantity: 'overshoot as a part of the step',
  unit: '1',
  inputs: { zeta: ['1', 0, 0.95] },
  expression: 'exp(-pi * zeta / sqrt(1 - zeta^2))',
  compute: ({ zeta }) => Math.exp((-Math.PI * zeta) / Math.sqrt(1 - zeta * zeta)),
  source: textbook,
})

/** Highest voltage when an empty capacitor is plugged onto a source, its own resistance lumped with the loop's. */
export const plugInPeak = /*#__PURE__*/ formula({
  symbol: 'V_plug',
  quantity: 'peak voltage when plugged in',
  unit: 'V',
  inputs: { V_s: ['V', 1, 30], k_over: ['1', 0, 1] },
  expression: 'V_s * (1 + k_over)',
  compute: ({ V_s, k_over }) => V_s * (1 + k_over),
  source: textbook,
})

/** Characteristic impedance of loop and capacitor: in series with a capacitor some four times as large it damps the ringing. */
export const characteristicImpedance = /*#__PURE__*/ formula({
  symbol: 'Z_0',
  quantity: 'characteristic impedance',
  unit: 'ohm',
  inputs: { L, C },
  expression: 'sqrt(L / C)',
  compute: ({ L, C }) => Math.sqrt(L / C),
  source: textbook,
})

/** Amplitude of the sine in the capacitor's voltage after a current step; the cosine's is `I_step·R_s`. */
export const sineAmplitude = /*#__PURE__*/ formula({
  symbol: 'V_sin',
  quantity: 'amplitude of the sine',
  unit: 'V',
  inputs: { I_step, R_s, C, alpha: ['s^-1', 1e3, 1e6], omega_d: ['s^-1', 1e3, 1e6] },
  expression: '(alpha * I_step * R_s - I_step / C) / omega_d',
  compute: ({ I_step, R_s, C, alpha, omega_d }) => (alpha * I_step * R_s - I_step / C) / omega_d,
  source: circuit,
})

/** Rail voltage after a current step where it rings (damping ratio below 1), capacitor without inductance. */
export const railRinging = /*#__PURE__*/ formula({
  symbol: 'V_ring',
  quantity: 'rail voltage after a current step, underdamped',
  unit: 'V',
  inputs: {
    V_rest,
    I_step,
    R_s,
    ESR,
    C,
    alpha: ['s^-1', 1e3, 1e6],
    omega_d: ['s^-1', 1e3, 1e6],
    V_sin: ['V', -1, 1],
    t,
  },
  expression:
    'V_rest - I_step * R_s + exp(-alpha * t) * ((I_step * R_s - ESR * I_step) * cos(omega_d * t) + (V_sin - ESR * C * (alpha * V_sin + omega_d * I_step * R_s)) * sin(omega_d * t))',
  compute: ({ V_rest, I_step, R_s, ESR, C, alpha, omega_d, V_sin, t }) =>
    V_rest -
    I_step * R_s +
    Math.exp(-alpha * t) *
      ((I_step * R_s - ESR * I_step) * Math.cos(omega_d * t) +
        (V_sin - ESR * C * (alpha * V_sin + omega_d * I_step * R_s)) * Math.sin(omega_d * t)),
  source: circuit,
})

/** Slow natural rate where the rail creeps (damping ratio above 1). */
export const slowRate = /*#__PURE__*/ formula({
  symbol: 's_slow',
  quantity: 'slow natural rate',
  unit: 's^-1',
  inputs: { alpha: ['s^-1', 2e5, 1e7], omega_0: ['s^-1', 1e3, 1.9e5] },
  expression: 'omega_0^2 / (alpha + sqrt(alpha^2 - omega_0^2))',
  compute: ({ alpha, omega_0 }) => (omega_0 * omega_0) / (alpha + Math.sqrt(alpha * alpha - omega_0 * omega_0)),
  source: textbook,
})

/** Fast natural rate where the rail creeps (damping ratio above 1). */
export const fastRate = /*#__PURE__*/ formula({
  symbol: 's_fast',
  quantity: 'fast natural rate',
  unit: 's^-1',
  inputs: { alpha: ['s^-1', 2e5, 1e7], omega_0: ['s^-1', 1e3, 1.9e5] },
  expression: 'alpha + sqrt(alpha^2 - omega_0^2)',
  compute: ({ alpha, omega_0 }) => alpha + Math.sqrt(alpha * alpha - omega_0 * omega_0),
  source: textbook,
})

/** Amplitude of the slow part of the capacitor's voltage after a current step; the fast part's is `I_step·R_s` less this. */
export const slowAmplitude = /*#__PURE__*/ formula({
  symbol: 'V_slow',
  quantity: 'amplitude of the slow part',
  unit: 'V',
  inputs: { I_step, R_s, C, s_slow: ['s^-1', 1e2, 1e5], s_fast: ['s^-1', 2e5, 1e7] },
  expression: '(s_fast * I_step * R_s - I_step / C) / (s_fast - s_slow)',
  compute: ({ I_step, R_s, C, s_slow, s_fast }) => (s_fast * I_step * R_s - I_step / C) / (s_fast - s_slow),
  source: circuit,
})

/** Rail voltage after a current step where it creeps (damping ratio above 1), capacitor without inductance. */
export const railCreeping = /*#__PURE__*/ formula({
  symbol: 'V_creep',
  quantity: 'rail voltage after a current step, overdamped',
  unit: 'V',
  inputs: {
    V_rest,
    I_step,
    R_s,
    ESR,
    C,
    s_slow: ['s^-1', 1e2, 1e5],
    s_fast: ['s^-1', 2e5, 1e7],
    V_slow: ['V', -1, 1],
    t,
  },
  expression:
    'V_rest - I_step * R_s + V_slow * (1 - ESR * C * s_slow) * exp(-s_slow * t) + (I_step * R_s - V_slow) * (1 - ESR * C * s_fast) * exp(-s_fast * t)',
  compute: ({ V_rest, I_step, R_s, ESR, C, s_slow, s_fast, V_slow, t }) =>
    V_rest -
    I_step * R_s +
    V_slow * (1 - ESR * C * s_slow) * Math.exp(-s_slow * t) +
    (I_step * R_s - V_slow) * (1 - ESR * C * s_fast) * Math.exp(-s_fast * t),
  source: circuit,
})
