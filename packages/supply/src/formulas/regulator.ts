import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const V_raw: InputRange = ['V', 2, 15]
const I_log: InputRange = ['A', 1e-5, 0.5]

/** Voltage that a linear regulator loses at a current where its pass transistor is a mere resistance. */
export const resistiveDropout = /*#__PURE__*/ formula({
  symbol: 'V_do',
  quantity: 'dropout voltage',
  unit: 'V',
  inputs: { I_log, R_do: ['ohm', 0.05, 50] },
  expression: 'I_log * R_do',
  compute: ({ I_log, R_do }) => I_log * R_do,
  source: "Ohm's law",
})

/** Rail behind a linear regulator: its own voltage, or what dropout leaves of the raw rail. */
export const regulatedRail = /*#__PURE__*/ formula({
  symbol: 'V_log',
  quantity: 'rail behind the regulator',
  unit: 'V',
  inputs: { V_set: ['V', 1, 12], V_raw, V_do: ['V', 0, 1] },
  expression: 'min(V_set, V_raw - V_do)',
  compute: ({ V_set, V_raw, V_do }) => Math.min(V_set, V_raw - V_do),
  source: 'a series regulator only takes away',
  smooth: false,
})

/** Power lost in a linear regulator. */
export const regulatorLoss = /*#__PURE__*/ formula({
  symbol: 'P_reg',
  quantity: 'power lost in the regulator',
  unit: 'W',
  inputs: { V_raw, V_log: ['V', 1, 12], I_log, I_q: ['A', 0, 0.01] },
  expression: '(V_raw - V_log) * I_log + V_raw * I_q',
  compute: ({ V_raw, V_log, I_log, I_q }) => (V_raw - V_log) * I_log + V_raw * I_q,
  source: "Joule's law",
})

/** How far the regulator's junction stands above the air. */
export const regulatorRise = /*#__PURE__*/ formula({
  symbol: 'dT_reg',
  quantity: 'junction of the regulator above the ambient',
  unit: 'K',
  inputs: { P_reg: ['W', 0, 5], R_threg: ['K/W', 5, 500] },
  expression: 'P_reg * R_threg',
  compute: ({ P_reg, R_threg }) => P_reg * R_threg,
  source: 'thermal resistance',
})

/** Droop of a regulated rail at a step of its current: the output capacitor alone carries it until the regulator answers. */
export const regulatorDroop = /*#__PURE__*/ formula({
  symbol: 'dV_step',
  quantity: 'droop of the regulated rail at a step of current',
  unit: 'V',
  inputs: {
    I_step: ['A', 1e-4, 0.5],
    t_resp: ['s', 1e-6, 1e-3],
    C_out: ['F', 1e-7, 1e-3],
    ESR_out: ['ohm', 0, 2],
  },
  expression: 'I_step * (t_resp / C_out + ESR_out)',
  compute: ({ I_step, t_resp, C_out, ESR_out }) => I_step * (t_resp / C_out + ESR_out),
  source: 'discharge of a capacitor by a constant current; an estimate for a regulator that answers late',
})
