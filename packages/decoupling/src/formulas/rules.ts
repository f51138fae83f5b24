import { formula } from '@ohmward/budget/formula'

/** Largest impedance of a rail for an allowed change of its voltage at a step of its current. */
export const targetImpedance = /*#__PURE__*/ formula({
  symbol: 'Z_t',
  quantity: 'target impedance',
  unit: 'ohm',
  inputs: { V_drop: ['V', 0.005, 2], I_step: ['A', 0.01, 100] },
  expression: 'V_drop / I_step',
  compute: ({ V_drop, I_step }) => V_drop / I_step,
  source: 'ratio of voltage and current, common practice for supply rails',
})

/** Capacitance for a constant deficit of current that lasts a time: a step wholly supplied by the capacitor. */
export const chargeForStep = /*#__PURE__*/ formula({
  symbol: 'C_step',
  quantity: 'capacitance for a deficit of constant current',
  unit: 'F',
  inputs: { I_step: ['A', 0.01, 100], t_on: ['s', 1e-7, 5], V_drop: ['V', 0.005, 2] },
  expression: 'I_step * t_on / V_drop',
  compute: ({ I_step, t_on, V_drop }) => (I_step * t_on) / V_drop,
  source: 'definition of capacitance',
})

/** Capacitance for a deficit that falls to 0 in a straight line, as behind an inductor: half of a constant one. */
export const chargeForRamp = /*#__PURE__*/ formula({
  symbol: 'C_ramp',
  quantity: 'capacitance for a deficit that ramps to 0',
  unit: 'F',
  inputs: { I_step: ['A', 0.01, 100], t_on: ['s', 1e-7, 5], V_drop: ['V', 0.005, 2] },
  expression: 'I_step * t_on / (2 * V_drop)',
  compute: ({ I_step, t_on, V_drop }) => (I_step * t_on) / (2 * V_drop),
  source: 'area of a triangle of current',
})

/** Capacitance that takes the energy of an inductance at load release within an overshoot. */
export const releaseCapacitance = /*#__PURE__*/ formula({
  symbol: 'C_release',
  quantity: 'capacitance for load release',
  unit: 'F',
  inputs: { L: ['H', 1e-8, 1e-4], I_step: ['A', 0.01, 100], V_s: ['V', 1, 30], V_over: ['V', 0.02, 2] },
  expression: 'L * I_step^2 / ((V_s + V_over)^2 - V_s^2)',
  compute: ({ L, I_step, V_s, V_over }) => (L * I_step * I_step) / ((V_s + V_over) ** 2 - V_s * V_s),
  source: 'energy of an inductor into a capacitor',
})
