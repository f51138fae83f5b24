import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const charge: InputRange = ['C', 1e-10, 1e-6]
const time: InputRange = ['s', 1e-9, 1e-3]
const V_oc: InputRange = ['V', 1, 60]
const I_max: InputRange = ['A', 0.01, 100]
const n: InputRange = ['1', 1, 8]
const f_edge: InputRange = ['Hz', 0, 1e6]

/**
 * Gate charge from the threshold to the plateau, of the charge from nothing to the plateau. A tolerance may put the
 * threshold of the arithmetic above the plateau, no transistor does: kept at a way of `V_min`.
 */
export const chargeToPlateau = /*#__PURE__*/ formula({
  symbol: 'Q_gs2',
  quantity: 'gate charge from threshold to plateau',
  unit: 'C',
  inputs: { Q_gs: charge, V_pl: ['V', 1.5, 6], V_th: ['V', 0.3, 1.4], V_min: ['V', 0.01, 0.1] },
  expression: 'Q_gs * max(V_pl - V_th, V_min) / V_pl',
  compute: ({ Q_gs, V_pl, V_th, V_min }) => (Q_gs * Math.max(V_pl - V_th, V_min)) / V_pl,
  source: 'constant capacitance below the plateau of the gate charge curve; floor of the model',
  smooth: false,
})

/** Gate charge that moves while the drain's voltage and current move. */
export const switchingCharge = /*#__PURE__*/ formula({
  symbol: 'Q_sw',
  quantity: 'switching charge of one device',
  unit: 'C',
  inputs: { Q_gs2: charge, Q_gd: charge },
  expression: 'Q_gs2 + Q_gd',
  compute: ({ Q_gs2, Q_gd }) => Q_gs2 + Q_gd,
  source: 'regions of the gate charge curve',
})

/** Voltage that drives the gate over the plateau; kept at `V_min` where there is less, and a margin says so. */
export const driveOverPlateau = /*#__PURE__*/ formula({
  symbol: 'V_over',
  quantity: 'drive above the plateau',
  unit: 'V',
  inputs: { V_GS: ['V', 1, 20], V_pl: ['V', 1, 6], V_min: ['V', 0.01, 0.1] },
  expression: 'max(V_GS - V_pl, V_min)',
  compute: ({ V_GS, V_pl, V_min }) => Math.max(V_GS - V_pl, V_min),
  source: 'Kirchhoff; floor of the model',
  smooth: false,
})

/**
 * Voltage that pulls the gate down, towards what the drive leaves when off. During the edge the gate falls from the plateau
 * to the threshold, and what pulls falls with it: taken a little below its mean.
 */
export const pullBelowPlateau = /*#__PURE__*/ formula({
  symbol: 'V_under',
  quantity: 'gate voltage above the off level during the turn-off edge',
  unit: 'V',
  inputs: { V_pl: ['V', 1, 6], V_th: ['V', 0.3, 3], V_off: ['V', 0, 2], V_min: ['V', 0.01, 0.1] },
  expression: 'sqrt(max(V_pl - V_off, V_min) * max(V_th - V_off, V_min))',
  compute: ({ V_pl, V_th, V_off, V_min }) => Math.sqrt(Math.max(V_pl - V_off, V_min) * Math.max(V_th - V_off, V_min)),
  source: 'Kirchhoff; the mean of an exponential is above the root of first times last; floor of the model',
  smooth: false,
})

/** Gate current during the rise. */
export const gateCurrentOn = /*#__PURE__*/ formula({
  symbol: 'I_gon',
  quantity: 'gate current, switching on',
  unit: 'A',
  inputs: { V_over: ['V', 0.01, 15], R_gon: ['ohm', 0.5, 1e5] },
  expression: 'V_over / R_gon',
  compute: ({ V_over, R_gon }) => V_over / R_gon,
  source: 'Ohm',
})

/** The same where a transistor has no more than `I_lim` for it. */
export const limitedGateCurrentOn = /*#__PURE__*/ formula({
  symbol: 'I_gon',
  quantity: 'gate current, switching on',
  unit: 'A',
  inputs: { V_over: ['V', 0.01, 15], R_gon: ['ohm', 0.5, 1e5], I_lim: ['A', 1e-4, 1] },
  expression: 'min(V_over / R_gon, I_lim)',
  compute: ({ V_over, R_gon, I_lim }) => Math.min(V_over / R_gon, I_lim),
  source: 'Ohm; collector current at the smallest gain',
  smooth: false,
})

/** Gate current during the fall. */
export const gateCurrentOff = /*#__PURE__*/ formula({
  symbol: 'I_goff',
  quantity: 'gate current, switching off',
  unit: 'A',
  inputs: { V_under: ['V', 0.01, 6], R_goff: ['ohm', 0.5, 1e7] },
  expression: 'V_under / R_goff',
  compute: ({ V_under, R_goff }) => V_under / R_goff,
  source: 'Ohm',
})

/** The same where a transistor has no more than `I_lim` for it. */
export const limitedGateCurrentOff = /*#__PURE__*/ formula({
  symbol: 'I_goff',
  quantity: 'gate current, switching off',
  unit: 'A',
  inputs: { V_under: ['V', 0.01, 6], R_goff: ['ohm', 0.5, 1e7], I_lim: ['A', 1e-4, 1] },
  expression: 'min(V_under / R_goff, I_lim)',
  compute: ({ V_under, R_goff, I_lim }) => Math.min(V_under / R_goff, I_lim),
  source: 'Ohm; collector current at the smallest gain',
  smooth: false,
})

/** Time in which drain voltage and current change over, switching on. */
export const riseTime = /*#__PURE__*/ formula({
  symbol: 't_r',
  quantity: 'edge when switching on',
  unit: 's',
  inputs: { n, Q_sw: charge, I_gon: ['A', 1e-6, 10] },
  expression: 'n * Q_sw / I_gon',
  compute: ({ n, Q_sw, I_gon }) => (n * Q_sw) / I_gon,
  source: 'charge = current times time',
})

/** Time in which drain voltage and current change over, switching off. */
export const fallTime = /*#__PURE__*/ formula({
  symbol: 't_f',
  quantity: 'edge when switching off',
  unit: 's',
  inputs: { n, Q_sw: charge, I_goff: ['A', 1e-6, 10] },
  expression: 'n * Q_sw / I_goff',
  compute: ({ n, Q_sw, I_goff }) => (n * Q_sw) / I_goff,
  source: 'charge = current times time',
})

/** Pairs of edges in a second: none where the duty is 0 or 1. */
export const edgeFrequency = /*#__PURE__*/ formula({
  symbol: 'f_edge',
  quantity: 'pairs of edges in a second',
  unit: 'Hz',
  inputs: { f: ['Hz', 0, 1e6], D: ['1', 0, 1] },
  expression: 'f * sign(D * (1 - D))',
  compute: ({ f, D }) => f * Math.sign(D * (1 - D)),
  source: 'a switch that stays on or off has no edges',
  smooth: false,
})

/** Both edges of a period; where they don't fit into it they fill it, and the margins of the edges say so. */
export const edgeTime = /*#__PURE__*/ formula({
  symbol: 't_edge',
  quantity: 'time in edges, for each period',
  unit: 's',
  inputs: { t_r: time, t_f: time, f: ['Hz', 1, 1e6] },
  expression: 'min(t_r + t_f, 1 / f)',
  compute: ({ t_r, t_f, f }) => Math.min(t_r + t_f, 1 / f),
  source: 'sum, inside a period',
  smooth: false,
})

/** Loss in the edges of a resistive load, where voltage and current change together. Pitfall H07. */
export const resistiveEdgeLoss = /*#__PURE__*/ formula({
  symbol: 'P_edge',
  quantity: 'loss in the edges, of one device',
  unit: 'W',
  inputs: { V_oc, I_max, f_edge, t_edge: time, n },
  expression: 'V_oc * I_max * f_edge * t_edge / (6 * n)',
  compute: ({ V_oc, I_max, f_edge, t_edge, n }) => (V_oc * I_max * f_edge * t_edge) / (6 * n),
  source: 'integral of V(1 - x) times I x over linear edges',
})

/** Loss in the edges of a clamped inductive load, where the voltage moves at full current. */
export const inductiveEdgeLoss = /*#__PURE__*/ formula({
  symbol: 'P_edge',
  quantity: 'loss in the edges, of one device',
  unit: 'W',
  inputs: { V_oc, I_max, f_edge, t_edge: time, n },
  expression: 'V_oc * I_max * f_edge * t_edge / (2 * n)',
  compute: ({ V_oc, I_max, f_edge, t_edge, n }) => (V_oc * I_max * f_edge * t_edge) / (2 * n),
  source: 'current moves at full voltage, then voltage at full current, linear edges',
})

/** Loss of the output capacitance, discharged into its own channel. */
export const outputCapacitanceLoss = /*#__PURE__*/ formula({
  symbol: 'P_oss',
  quantity: 'loss of the output capacitance, of one device',
  unit: 'W',
  inputs: { C_oss: ['F', 0, 1e-8], V_oc, f_edge },
  expression: 'C_oss * V_oc^2 * f_edge / 2',
  compute: ({ C_oss, V_oc, f_edge }) => (C_oss * V_oc ** 2 * f_edge) / 2,
  source: 'energy of a capacitor, taken as constant',
})

/**
 * Energy of the wiring's inductance, which the switch takes up at each turn-off where nothing else clamps it; where it
 * breaks down, the source goes on feeding the current meanwhile.
 */
export const wiringLoss = /*#__PURE__*/ formula({
  symbol: 'P_wire',
  quantity: 'loss from the wiring inductance, of one device',
  unit: 'W',
  inputs: {
    L_w: ['H', 0, 1e-5],
    I_max,
    V_DSmax: ['V', 61, 200],
    V_oc,
    V_min: ['V', 0.01, 0.1],
    f_edge,
    n,
  },
  expression: 'L_w * I_max^2 * V_DSmax * f_edge / (2 * n * max(V_DSmax - V_oc, V_min))',
  compute: ({ L_w, I_max, V_DSmax, V_oc, V_min, f_edge, n }) =>
    (L_w * I_max ** 2 * V_DSmax * f_edge) / (2 * n * Math.max(V_DSmax - V_oc, V_min)),
  source: 'energy of an inductance; integral of the breakdown voltage over the falling current',
  smooth: false,
})

/** What PWM adds to conduction. */
export const switchingLoss = /*#__PURE__*/ formula({
  symbol: 'P_sw',
  quantity: 'switching loss of one device',
  unit: 'W',
  inputs: { P_edge: ['W', 0, 100], P_oss: ['W', 0, 10], P_wire: ['W', 0, 10] },
  expression: 'P_edge + P_oss + P_wire',
  compute: ({ P_edge, P_oss, P_wire }) => P_edge + P_oss + P_wire,
  source: 'sum',
})

/** Power that the gates take from their drive; it heats drive and gate resistor, not the junction. */
export const gatePower = /*#__PURE__*/ formula({
  symbol: 'P_gate',
  quantity: 'gate power',
  unit: 'W',
  inputs: { n, Q_g: charge, V_G: ['V', 1, 20], f_edge },
  expression: 'n * Q_g * V_G * f_edge',
  compute: ({ n, Q_g, V_G, f_edge }) => n * Q_g * V_G * f_edge,
  source: 'charge taken from a voltage, once a period',
})
