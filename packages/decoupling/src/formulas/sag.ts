import { formula } from '@ohmward/budget/formula'

const kirchhoff = "Kirchhoff's voltage law"

/** Current that is drawn all the time: what is stated includes the logic rail's, so the larger of both counts. */
export const restCurrent = /*#__PURE__*/ formula({
  symbol: 'I_q',
  quantity: 'current drawn all the time',
  unit: 'A',
  inputs: { I_0: ['A', 0, 0.2], I_mcu: ['A', 0, 0.2] },
  expression: 'max(I_0, I_mcu)',
  compute: ({ I_0, I_mcu }) => Math.max(I_0, I_mcu),
  source: "definition: the stated current includes the logic rail's",
  smooth: false,
})

/** Rail voltage at rest, with only what is always on. No capacitor changes it. */
export const restVoltage = /*#__PURE__*/ formula({
  symbol: 'V_rest',
  quantity: 'rail voltage at rest',
  unit: 'V',
  inputs: { V_s: ['V', 1, 15], R_s: ['ohm', 0.005, 2], I_q: ['A', 0, 0.2] },
  expression: 'V_s - R_s * I_q',
  compute: ({ V_s, R_s, I_q }) => V_s - R_s * I_q,
  source: kirchhoff,
})

/** Rail voltage in the end under a constant current. No capacitor changes it. Below 0: no source can give that current. */
export const endVoltageOfCurrent = /*#__PURE__*/ formula({
  symbol: 'V_endI',
  quantity: 'steady rail voltage under a constant current',
  unit: 'V',
  inputs: { V_rest: ['V', 1, 15], R_s: ['ohm', 0.005, 0.5], I_step: ['A', 0.01, 10] },
  expression: 'V_rest - R_s * I_step',
  compute: ({ V_rest, R_s, I_step }) => V_rest - R_s * I_step,
  source: kirchhoff,
})

/** Rail voltage in the end under a resistor. No capacitor changes it. */
export const endVoltageOfResistor = /*#__PURE__*/ formula({
  symbol: 'V_endR',
  quantity: 'steady rail voltage under a resistor',
  unit: 'V',
  inputs: { V_rest: ['V', 1, 15], R_s: ['ohm', 0.005, 2], R_L: ['ohm', 0.05, 50] },
  expression: 'V_rest * R_L / (R_L + R_s)',
  compute: ({ V_rest, R_s, R_L }) => (V_rest * R_L) / (R_L + R_s),
  source: kirchhoff,
})

/** Largest constant power that a source can give: above it no rail voltage satisfies the circuit. */
export const mostPower = /*#__PURE__*/ formula({
  symbol: 'P_max',
  quantity: 'largest constant power that has a solution',
  unit: 'W',
  inputs: { V_rest: ['V', 1, 15], R_s: ['ohm', 0.005, 2] },
  expression: 'V_rest^2 / (4 * R_s)',
  compute: ({ V_rest, R_s }) => (V_rest * V_rest) / (4 * R_s),
  source: 'maximum power transfer (Jacobi)',
})

/** Largest power that PWM can put into a resistor: fully on. */
export const mostResistorPower = /*#__PURE__*/ formula({
  symbol: 'P_maxR',
  quantity: 'largest power that reaches a resistor',
  unit: 'W',
  inputs: { V_rest: ['V', 1, 15], R_s: ['ohm', 0.005, 2], R_L: ['ohm', 0.05, 50] },
  expression: 'V_rest^2 * R_L / (R_L + R_s)^2',
  compute: ({ V_rest, R_s, R_L }) => (V_rest * V_rest * R_L) / (R_L + R_s) ** 2,
  source: kirchhoff,
})

/** Current of a constant power in the end: the root that is 0 for no power. For `P_L` up to `V_rest²/4R_s`. */
export const endCurrentOfPower = /*#__PURE__*/ formula({
  symbol: 'I_endP',
  quantity: 'steady current of a constant power',
  unit: 'A',
  inputs: { V_rest: ['V', 3, 15], R_s: ['ohm', 0.005, 0.2], P_L: ['W', 0.01, 10] },
  expression: '2 * P_L / (V_rest + sqrt(V_rest^2 - 4 * R_s * P_L))',
  compute: ({ V_rest, R_s, P_L }) => (2 * P_L) / (V_rest + Math.sqrt(V_rest * V_rest - 4 * R_s * P_L)),
  source: "Kirchhoff's voltage law, solved for the current",
})

/** Rail voltage in the end under a constant power, up to `V_rest²/4R_s`. */
export const endVoltageOfPower = /*#__PURE__*/ formula({
  symbol: 'V_endP',
  quantity: 'steady rail voltage under a constant power',
  unit: 'V',
  inputs: { V_rest: ['V', 3, 15], R_s: ['ohm', 0.005, 0.2], P_L: ['W', 0.01, 10] },
  expression: '(V_rest + sqrt(V_rest^2 - 4 * R_s * P_L)) / 2',
  compute: ({ V_rest, R_s, P_L }) => (V_rest + Math.sqrt(V_rest * V_rest - 4 * R_s * P_L)) / 2,
  source: "Kirchhoff's voltage law, solved for the voltage",
})

/** Rail voltage of a current-limited source in the end under a resistor that asks for more than the limit. */
export const endVoltageAtLimit = /*#__PURE__*/ formula({
  symbol: 'V_endL',
  quantity: 'steady rail voltage at the current limit',
  unit: 'V',
  inputs: { I_lim: ['A', 0.05, 5], I_q: ['A', 0, 0.04], R_L: ['ohm', 0.05, 50] },
  expression: '(I_lim - I_q) * R_L',
  compute: ({ I_lim, I_q, R_L }) => (I_lim - I_q) * R_L,
  source: "Ohm's law",
})
