import { formula } from '@ohmward/budget/formula'

/** Root-mean-square current of a capacitor that supplies all of a PWM current's alternating part: the upper limit. */
export const rippleCurrentLimit = /*#__PURE__*/ formula({
  symbol: 'I_alt',
  quantity: 'alternating part of a PWM current',
  unit: 'A',
  inputs: { I_step: ['A', 0.01, 20], D: ['1', 0.01, 0.99] },
  expression: 'I_step * sqrt(D * (1 - D))',
  compute: ({ I_step, D }) => I_step * Math.sqrt(D * (1 - D)),
  source: 'root mean square of a rectangular wave less its mean',
})

/** The capacitor's part of it where the period is short against the time constant: shared by resistance with the source. */
export const rippleCurrentShared = /*#__PURE__*/ formula({
  symbol: 'I_fast',
  quantity: 'ripple current of the capacitor at high frequency',
  unit: 'A',
  inputs: { I_alt: ['A', 0.01, 10], R_s: ['ohm', 0.005, 2], ESR: ['ohm', 0.001, 1] },
  expression: 'I_alt * R_s / (R_s + ESR)',
  compute: ({ I_alt, R_s, ESR }) => (I_alt * R_s) / (R_s + ESR),
  source: 'current divider',
})

/** Lowest rail voltage in steady PWM of a constant current, one kind of capacitor, no inductance. */
export const railInPwm = /*#__PURE__*/ formula({
  symbol: 'V_pwm',
  quantity: 'lowest rail voltage in steady PWM',
  unit: 'V',
  inputs: {
    V_rest: ['V', 1, 15],
    I_step: ['A', 0.01, 2],
    R_s: ['ohm', 0.005, 0.4],
    ESR: ['ohm', 0.001, 1],
    D: ['1', 0.01, 0.99],
    T_pwm: ['s', 1e-5, 1e-2],
    tau_I: ['s', 1e-5, 1e-1],
  },
  expression:
    'V_rest - I_step * R_s * (ESR + R_s * (1 - exp(-D * T_pwm / tau_I)) / (1 - exp(-T_pwm / tau_I))) / (R_s + ESR)',
  compute: ({ V_rest, I_step, R_s, ESR, D, T_pwm, tau_I }) =>
    V_rest -
    (I_step * R_s * (ESR + (R_s * (1 - Math.exp((-D * T_pwm) / tau_I))) / (1 - Math.exp(-T_pwm / tau_I)))) /
      (R_s + ESR),
  source: 'first-order circuit, periodic state',
})

/** Ripple by the usual rule of thumb, the capacitor taking all: an upper estimate. */
export const rippleEstimate = /*#__PURE__*/ formula({
  symbol: 'V_rip',
  quantity: 'ripple by the rule of thumb',
  unit: 'V',
  inputs: {
    I_step: ['A', 0.01, 20],
    D: ['1', 0.01, 0.99],
    T_pwm: ['s', 1e-6, 1e-2],
    C: ['F', 1e-5, 1e-2],
    ESR: ['ohm', 0.001, 1],
  },
  expression: 'I_step * (D * (1 - D) * T_pwm / C + ESR)',
  compute: ({ I_step, D, T_pwm, C, ESR }) => I_step * ((D * (1 - D) * T_pwm) / C + ESR),
  source: 'common practice: charge of one on-time less the mean, and the drop across ESR',
})
