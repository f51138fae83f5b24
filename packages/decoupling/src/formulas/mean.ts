import { formula } from '@ohmward/budget/formula'

const V_rest = ['V', 1, 15] as const
const D_m = ['1', 0.01, 1] as const
const kirchhoff = "Kirchhoff's voltage law, means over a period"

/** Share of the time that a pulsed load counts for: the duty with half of its edges; 1 without PWM. */
export const meanDuty = /*#__PURE__*/ formula({
  symbol: 'D_m',
  quantity: 'share of the time that the load counts for',
  unit: '1',
  inputs: { D: ['1', 0.05, 0.95], t_r: ['s', 0, 1e-7], t_f: ['s', 0, 1e-7], T_pwm: ['s', 1e-5, 1e-2] },
  expression: 'D + (t_f - t_r) / (2 * T_pwm)',
  compute: ({ D, t_r, t_f, T_pwm }) => D + (t_f - t_r) / (2 * T_pwm),
  source: 'mean of a trapezium',
})

/** Mean rail voltage while a current is drawn for a share of the time. No capacitor changes it. */
export const meanVoltageOfCurrent = /*#__PURE__*/ formula({
  symbol: 'V_meanI',
  quantity: 'mean rail voltage under a constant current',
  unit: 'V',
  inputs: { V_rest, R_s: ['ohm', 0.005, 0.5], I_step: ['A', 0.01, 10], D_m },
  expression: 'V_rest - R_s * I_step * D_m',
  compute: ({ V_rest, R_s, I_step, D_m }) => V_rest - R_s * I_step * D_m,
  source: kirchhoff,
})

/** Mean rail voltage while a resistor is on for a share of the time, the capacitors as large as one likes. */
export const meanVoltageOfResistor = /*#__PURE__*/ formula({
  symbol: 'V_meanR',
  quantity: 'mean rail voltage under a resistor',
  unit: 'V',
  inputs: { V_rest, R_s: ['ohm', 0.005, 2], R_L: ['ohm', 0.05, 50], D_m },
  expression: 'V_rest / (1 + D_m * R_s / R_L)',
  compute: ({ V_rest, R_s, R_L, D_m }) => V_rest / (1 + (D_m * R_s) / R_L),
  source: kirchhoff,
})

/** The same of a current-limited source where the resistor asks for more than the limit. */
export const meanVoltageAtLimit = /*#__PURE__*/ formula({
  symbol: 'V_meanL',
  quantity: 'mean rail voltage at the current limit',
  unit: 'V',
  inputs: { I_lim: ['A', 0.05, 5], I_q: ['A', 0, 0.04], R_L: ['ohm', 0.05, 50], D_m },
  expression: '(I_lim - I_q) * R_L / D_m',
  compute: ({ I_lim, I_q, R_L, D_m }) => ((I_lim - I_q) * R_L) / D_m,
  source: "Ohm's law, means over a period",
})

/** Mean current that a constant current draws in PWM. */
export const meanCurrentOfCurrent = /*#__PURE__*/ formula({
  symbol: 'I_meanI',
  quantity: 'mean of a pulsed current',
  unit: 'A',
  inputs: { I_step: ['A', 0.01, 10], D_m },
  expression: 'I_step * D_m',
  compute: ({ I_step, D_m }) => I_step * D_m,
  source: 'mean of a trapezium',
})

/** Mean current that a resistor draws in PWM from a rail held at its mean. */
export const meanCurrentOfResistor = /*#__PURE__*/ formula({
  symbol: 'I_meanR',
  quantity: 'mean current of a pulsed resistor',
  unit: 'A',
  inputs: { V_rest, R_s: ['ohm', 0.005, 2], R_L: ['ohm', 0.05, 50], D_m },
  expression: 'V_rest * D_m / (R_L + R_s * D_m)',
  compute: ({ V_rest, R_s, R_L, D_m }) => (V_rest * D_m) / (R_L + R_s * D_m),
  source: kirchhoff,
})
