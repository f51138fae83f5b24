import { formula } from '@ohmward/budget/formula'

const firstOrder = "Kirchhoff's laws, one capacitor, no inductance"
const R_s = ['ohm', 0.005, 2] as const
const ESR = ['ohm', 0.001, 1] as const
const V_rest = ['V', 1, 15] as const
const I_step = ['A', 0.01, 2] as const

/** Rail voltage at once after a current step: the source and the capacitor's series resistance share it. */
export const firstVoltageOfCurrent = /*#__PURE__*/ formula({
  symbol: 'V_firstI',
  quantity: 'first rail voltage after a current step',
  unit: 'V',
  inputs: { V_rest, R_s, ESR, I_step },
  expression: 'V_rest - I_step * R_s * ESR / (R_s + ESR)',
  compute: ({ V_rest, R_s, ESR, I_step }) => V_rest - (I_step * R_s * ESR) / (R_s + ESR),
  source: firstOrder,
})

/** Rail voltage at once after a resistor is switched on. */
export const firstVoltageOfResistor = /*#__PURE__*/ formula({
  symbol: 'V_firstR',
  quantity: 'first rail voltage under a resistor',
  unit: 'V',
  inputs: { V_rest, R_s, ESR, R_L: ['ohm', 0.05, 50] },
  expression: '(V_rest / R_s + V_rest / ESR) / (1 / R_s + 1 / ESR + 1 / R_L)',
  compute: ({ V_rest, R_s, ESR, R_L }) => (V_rest / R_s + V_rest / ESR) / (1 / R_s + 1 / ESR + 1 / R_L),
  source: firstOrder,
})

/** Time constant of the rail under a constant current. */
export const timeConstantOfCurrent = /*#__PURE__*/ formula({
  symbol: 'tau_I',
  quantity: 'time constant under a constant current',
  unit: 's',
  inputs: { R_s, ESR, C: ['F', 1e-7, 1] },
  expression: '(R_s + ESR) * C',
  compute: ({ R_s, ESR, C }) => (R_s + ESR) * C,
  source: firstOrder,
})

/** Time constant of the rail under a resistor. */
export const timeConstantOfResistor = /*#__PURE__*/ formula({
  symbol: 'tau_R',
  quantity: 'time constant under a resistor',
  unit: 's',
  inputs: { R_s, ESR, R_L: ['ohm', 0.05, 50], C: ['F', 1e-7, 1] },
  expression: '(R_s * R_L / (R_s + R_L) + ESR) * C',
  compute: ({ R_s, ESR, R_L, C }) => ((R_s * R_L) / (R_s + R_L) + ESR) * C,
  source: firstOrder,
})

/** Rail voltage a time after a current step without rise time. */
export const railAfterCurrent = /*#__PURE__*/ formula({
  symbol: 'V_stepI',
  quantity: 'rail voltage after a current step',
  unit: 'V',
  inputs: { V_rest, R_s, ESR, I_step, tau_I: ['s', 1e-6, 1], t: ['s', 0, 1] },
  expression: 'V_rest - I_step * R_s * (1 - R_s / (R_s + ESR) * exp(-t / tau_I))',
  compute: ({ V_rest, R_s, ESR, I_step, tau_I, t }) =>
    V_rest - I_step * R_s * (1 - (R_s / (R_s + ESR)) * Math.exp(-t / tau_I)),
  source: firstOrder,
})

/** Rail voltage a time after a resistor is switched on without rise time. */
export const railAfterResistor = /*#__PURE__*/ formula({
  symbol: 'V_stepR',
  quantity: 'rail voltage after a resistor is switched on',
  unit: 'V',
  inputs: { V_firstR: ['V', 1, 15], V_endR: ['V', 1, 15], tau_R: ['s', 1e-6, 1], t: ['s', 0, 1] },
  expression: 'V_endR + (V_firstR - V_endR) * exp(-t / tau_R)',
  compute: ({ V_firstR, V_endR, tau_R, t }) => V_endR + (V_firstR - V_endR) * Math.exp(-t / tau_R),
  source: firstOrder,
})

/** Rail voltage while a current rises in a straight line, `t` up to the rise time. */
export const railInRise = /*#__PURE__*/ formula({
  symbol: 'V_rise',
  quantity: 'rail voltage while the current rises',
  unit: 'V',
  inputs: {
    V_rest,
    R_s,
    C: ['F', 1e-7, 1],
    I_step,
    tau_I: ['s', 1e-6, 1],
    t_r: ['s', 0.1, 1],
    t: ['s', 1e-6, 0.1],
  },
  expression: 'V_rest - I_step / t_r * R_s * (t - R_s * C * (1 - exp(-t / tau_I)))',
  compute: ({ V_rest, R_s, C, I_step, tau_I, t_r, t }) =>
    V_rest - (I_step / t_r) * R_s * (t - R_s * C * (1 - Math.exp(-t / tau_I))),
  source: firstOrder,
})

/** Rail voltage after the rise of a current, `t` counted from its beginning and not before its end. */
export const railAfterRise = /*#__PURE__*/ formula({
  symbol: 'V_rampI',
  quantity: 'rail voltage after the rise of the current',
  unit: 'V',
  inputs: {
    V_rest,
    R_s,
    C: ['F', 1e-7, 1],
    I_step,
    tau_I: ['s', 1e-6, 1],
    t_r: ['s', 1e-6, 0.1],
    t: ['s', 0.1, 1],
  },
  expression: 'V_rest - I_step * R_s * (1 - R_s * C / t_r * (exp((t_r - t) / tau_I) - exp(-t / tau_I)))',
  compute: ({ V_rest, R_s, C, I_step, tau_I, t_r, t }) =>
    V_rest - I_step * R_s * (1 - ((R_s * C) / t_r) * (Math.exp((t_r - t) / tau_I) - Math.exp(-t / tau_I))),
  source: firstOrder,
})
