import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const V_oc: InputRange = ['V', 2, 60]
const R_s: InputRange = ['ohm', 0.005, 1]
const R_L: InputRange = ['ohm', 0.05, 100]

/** Current of a resistance, solved with the source: in PWM the current while it is on. */
export const resistorCurrent = /*#__PURE__*/ formula({
  symbol: 'I_L',
  quantity: 'load current',
  unit: 'A',
  inputs: { V_oc, R_s, R_L },
  expression: 'V_oc / (R_s + R_L)',
  compute: ({ V_oc, R_s, R_L }) => V_oc / (R_s + R_L),
  source: "Ohm's law",
})

/**
 * Current of a load that draws a constant power: the smaller root of `P_L = (V_oc - I_L * R_s) * I_L`, written so that a
 * small resistance does it no harm. Real only up to `P_most`. Pitfall K02.
 */
export const powerCurrent = /*#__PURE__*/ formula({
  symbol: 'I_L',
  quantity: 'current of a constant-power load',
  unit: 'A',
  inputs: { V_oc: ['V', 4, 60], R_s: ['ohm', 0.005, 0.2], P_L: ['W', 0.1, 19] },
  expression: '2 * P_L / (V_oc + sqrt(V_oc^2 - 4 * R_s * P_L))',
  compute: ({ V_oc, R_s, P_L }) => (2 * P_L) / (V_oc + Math.sqrt(V_oc * V_oc - 4 * R_s * P_L)),
  source: "Ohm's law, the stable root of the quadratic",
})

/** Rail that a load leaves. */
export const loadedRail = /*#__PURE__*/ formula({
  symbol: 'V_rail',
  quantity: 'rail under load',
  unit: 'V',
  inputs: { V_oc, I_L: ['A', 0, 20], R_s: ['ohm', 0.005, 0.09] },
  expression: 'V_oc - I_L * R_s',
  compute: ({ V_oc, I_L, R_s }) => V_oc - I_L * R_s,
  source: "Ohm's law",
})

/** Rail of a supply that holds its current at its limit: the load alone decides. */
export const limitedRail = /*#__PURE__*/ formula({
  symbol: 'V_rail',
  quantity: 'rail at the current limit',
  unit: 'V',
  inputs: { I_lim: ['A', 0.05, 20], R_L },
  expression: 'I_lim * R_L',
  compute: ({ I_lim, R_L }) => I_lim * R_L,
  source: "Ohm's law",
})

/** Largest power that a source gives to any load; a constant-power load that asks for more pulls the rail down. Pitfall K02. */
export const largestPower = /*#__PURE__*/ formula({
  symbol: 'P_most',
  quantity: 'largest power of the source',
  unit: 'W',
  inputs: { V_oc, R_s },
  expression: 'V_oc^2 / (4 * R_s)',
  compute: ({ V_oc, R_s }) => (V_oc * V_oc) / (4 * R_s),
  source: 'matched load',
})

/** Largest power that PWM can put into a resistance: all the time on. Pitfall K02. */
export const largestResistorPower = /*#__PURE__*/ formula({
  symbol: 'P_full',
  quantity: 'power in the resistance, always on',
  unit: 'W',
  inputs: { V_oc, R_s, R_L },
  expression: 'V_oc^2 * R_L / (R_L + R_s)^2',
  compute: ({ V_oc, R_s, R_L }) => (V_oc * V_oc * R_L) / ((R_L + R_s) * (R_L + R_s)),
  source: "Ohm's and Joule's law",
})

/** Duty that puts a mean power into a resistance; above 1 there is none. Pitfall K02. */
export const dutyForPower = /*#__PURE__*/ formula({
  symbol: 'd_P',
  quantity: 'duty for a power',
  unit: '1',
  inputs: { P_L: ['W', 0.1, 19], P_full: ['W', 1, 1e3] },
  expression: 'P_L / P_full',
  compute: ({ P_L, P_full }) => P_L / P_full,
  source: 'mean of a pulse',
})

/** Mean current of a load in PWM: what the cell gives and a slow meter reads. */
export const meanCurrent = /*#__PURE__*/ formula({
  symbol: 'I_mean',
  quantity: 'mean load current',
  unit: 'A',
  inputs: { I_L: ['A', 0, 20], d_on: ['1', 0, 1] },
  expression: 'I_L * d_on',
  compute: ({ I_L, d_on }) => I_L * d_on,
  source: 'mean of a pulse',
})

/** Mean power in a resistance in PWM. */
export const meanPower = /*#__PURE__*/ formula({
  symbol: 'P_mean',
  quantity: 'mean power in the load',
  unit: 'W',
  inputs: { I_L: ['A', 0, 20], V_rail: ['V', 0, 60], d_on: ['1', 0, 1] },
  expression: 'I_L * V_rail * d_on',
  compute: ({ I_L, V_rail, d_on }) => I_L * V_rail * d_on,
  source: 'mean of a pulse',
})
