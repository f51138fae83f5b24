import type { InputRange, Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

const R_p: InputRange = ['ohm', 10, 1e6]

/** Highest current that a gate takes from the pin: uncharged gate, no plateau. Pitfall H09. */
export const peakPinCurrent = /*#__PURE__*/ formula({
  symbol: 'I_pin',
  quantity: 'peak current of the drive',
  unit: 'A',
  inputs: { V_GShigh: ['V', 1, 60], R_drv: ['ohm', 0, 200], R_g: ['ohm', 1, 1e4] },
  expression: 'V_GShigh / (R_drv + R_g)',
  compute: ({ V_GShigh, R_drv, R_g }) => V_GShigh / (R_drv + R_g),
  source: 'Ohm, gate empty',
})

/** Collector current that the inverting transistor is sure to carry. */
export const collectorCurrent = /*#__PURE__*/ formula({
  symbol: 'I_C',
  quantity: 'available collector current',
  unit: 'A',
  inputs: { h_FE: ['1', 10, 500], V_high: ['V', 1.5, 6], V_BE: ['V', 0.6, 1], R_b: ['ohm', 10, 1e6] },
  expression: 'h_FE * (V_high - V_BE) / R_b',
  compute: ({ h_FE, V_high, V_BE, R_b }) => (h_FE * (V_high - V_BE)) / R_b,
  source: 'Ohm and the smallest current gain',
})

/** The same with a resistor from base to emitter, which takes its share. */
export const sharedCollectorCurrent = /*#__PURE__*/ formula({
  symbol: 'I_C',
  quantity: 'available collector current',
  unit: 'A',
  inputs: {
    h_FE: ['1', 10, 500],
    V_high: ['V', 1.5, 6],
    V_BE: ['V', 0.6, 0.9],
    R_b: ['ohm', 10, 1e4],
    R_be: ['ohm', 2e4, 1e6],
  },
  expression: 'h_FE * ((V_high - V_BE) / R_b - V_BE / R_be)',
  compute: ({ h_FE, V_high, V_BE, R_b, R_be }) => h_FE * ((V_high - V_BE) / R_b - V_BE / R_be),
  source: 'Kirchhoff and the smallest current gain',
})

/** Current through the pull resistor while the transistor pulls against it. */
export const pullCurrent = /*#__PURE__*/ formula({
  symbol: 'I_p',
  quantity: 'current of the pull resistor',
  unit: 'A',
  inputs: { V_GShigh: ['V', 1, 60], R_p },
  expression: 'V_GShigh / R_p',
  compute: ({ V_GShigh, R_p }) => V_GShigh / R_p,
  source: 'Ohm',
})

/**
 * What the transistor has left for the gate while it pulls against the resistor; kept at `I_min` where the resistor
 * takes all, and the margin of saturation says so.
 */
export const currentForGate = /*#__PURE__*/ formula({
  symbol: 'I_lim',
  quantity: 'collector current left for the gate',
  unit: 'A',
  inputs: { I_C: ['A', 1e-4, 1], V_GShigh: ['V', 1, 20], R_p: ['ohm', 100, 1e6], I_min: ['A', 1e-6, 1e-4] },
  expression: 'max(I_C - V_GShigh / R_p, I_min)',
  compute: ({ I_C, V_GShigh, R_p, I_min }) => Math.max(I_C - V_GShigh / R_p, I_min),
  source: 'Kirchhoff; floor of the model',
  smooth: false,
})

/** Collector current that a resistor from the rail into the base is sure to make while the controller resets. */
export const resetCollectorCurrent = /*#__PURE__*/ formula({
  symbol: 'I_Creset',
  quantity: 'available collector current during reset',
  unit: 'A',
  inputs: { h_FE: ['1', 10, 500], V_oc: ['V', 2, 20], V_BE: ['V', 0.6, 1], R_bp: ['ohm', 100, 1e6] },
  expression: 'h_FE * (V_oc - V_BE) / R_bp',
  compute: ({ h_FE, V_oc, V_BE, R_bp }) => (h_FE * (V_oc - V_BE)) / R_bp,
  source: 'Ohm and the smallest current gain',
})

/** Power of the pull resistor, which carries current for the share `D_p` of the time. Pitfall H04. */
export const pullPower = /*#__PURE__*/ formula({
  symbol: 'P_p',
  quantity: 'power of the pull resistor',
  unit: 'W',
  inputs: { V_GShigh: ['V', 1, 60], R_p, D_p: ['1', 0, 1] },
  expression: 'V_GShigh^2 / R_p * D_p',
  compute: ({ V_GShigh, R_p, D_p }) => (V_GShigh ** 2 / R_p) * D_p,
  source: 'Joule',
})

/** The same where a pin or a driver carries it while the switch is on. */
export const onPullPower = /*#__PURE__*/ at(pullPower, 'P_p', (x: Values<'V_GShigh' | 'R_p' | 'D'>) => ({
  V_GShigh: x.V_GShigh,
  R_p: x.R_p,
  D_p: x.D,
}))

/**
 * Share of the time in which the transistor of an N-channel switch pulls: while the switch is off, and as long again as
 * the saturated transistor takes to let go.
 */
export const offShare = /*#__PURE__*/ formula({
  symbol: 'D_p',
  quantity: 'share of the time in which the pull resistor carries current',
  unit: '1',
  inputs: { D: ['1', 0, 0.99], f: ['Hz', 0, 1e5], t_sto: ['s', 0, 1e-5] },
  expression: 'min(1 - D + f * t_sto, 1)',
  compute: ({ D, f, t_sto }) => Math.min(1 - D + f * t_sto, 1),
  source: 'definition of the duty; storage lengthens each pulse of the collector current',
  smooth: false,
})

/** The same where the transistor pulls while the switch is on. */
export const onShare = /*#__PURE__*/ formula({
  symbol: 'D_p',
  quantity: 'share of the time in which the pull resistor carries current',
  unit: '1',
  inputs: { D: ['1', 0, 0.99], f: ['Hz', 0, 1e5], t_sto: ['s', 0, 1e-5] },
  expression: 'min(D + f * t_sto, 1)',
  compute: ({ D, f, t_sto }) => Math.min(D + f * t_sto, 1),
  source: 'definition of the duty; storage lengthens each pulse of the collector current',
  smooth: false,
})

/** Time from 10 % to 90 % of a gate that charges through a resistor alone: 2.2 time constants. */
export const exponentialEdge = /*#__PURE__*/ formula({
  symbol: 't_1090',
  quantity: 'gate rise time, 10 % to 90 %',
  unit: 's',
  inputs: { R_p, C_iss: ['F', 1e-11, 1e-7] },
  expression: 'log(9) * R_p * C_iss',
  compute: ({ R_p, C_iss }) => Math.log(9) * R_p * C_iss,
  source: 'step response of one pole',
})

/** Time constant of gate resistor and input capacitance. */
export const gateTimeConstant = /*#__PURE__*/ formula({
  symbol: 'tau_g',
  quantity: 'time constant of the gate',
  unit: 's',
  inputs: { R_gon: ['ohm', 0.5, 1e5], n: ['1', 1, 8], C_iss: ['F', 1e-11, 1e-7] },
  expression: 'R_gon * n * C_iss',
  compute: ({ R_gon, n, C_iss }) => R_gon * n * C_iss,
  source: 'one pole',
})

/** The driver's own share of the gate power; the gate resistor takes the rest. Half of the energy is lost at each edge. */
export const driverShare = /*#__PURE__*/ formula({
  symbol: 'P_drv',
  quantity: 'gate power lost in the driver',
  unit: 'W',
  inputs: {
    P_gate: ['W', 0, 10],
    R_snk: ['ohm', 0.1, 1e3],
    R_drv: ['ohm', 0.1, 1e3],
    R_g: ['ohm', 0, 1e3],
  },
  expression: 'P_gate / 2 * (R_snk / (R_snk + R_g) + R_drv / (R_drv + R_g))',
  compute: ({ P_gate, R_snk, R_drv, R_g }) => (P_gate / 2) * (R_snk / (R_snk + R_g) + R_drv / (R_drv + R_g)),
  source: 'half of the energy at each edge, shared by the resistances in series',
})
