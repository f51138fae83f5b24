import type { Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'
import { coupledLevel, hotThreshold } from './off.js'
import { deratedAvalancheEnergy, deratedPulsePower } from './surge.js'
import { junctionTemperature } from './thermal.js'

/** Gate voltage below which the drive doesn’t get over the plateau. */
export const neededLevel = /*#__PURE__*/ formula({
  symbol: 'V_need',
  quantity: 'least gate-source voltage to get over the plateau',
  unit: 'V',
  inputs: { V_pl: ['V', 1, 6], V_min: ['V', 0.01, 0.1] },
  expression: 'V_pl + V_min',
  compute: ({ V_pl, V_min }) => V_pl + V_min,
  source: 'floor of the model',
})

/** Threshold at the warmest ambient: where the cell makes contact the device is as warm as the air. */
export const ambientThreshold = /*#__PURE__*/ at(
  hotThreshold,
  'V_thair',
  (x: Values<'V_th' | 'k_th' | 'T_air' | 'T_25'>) => ({ V_th: x.V_th, k_th: x.k_th, T_hot: x.T_air, T_25: x.T_25 }),
  { quantity: 'threshold at the air temperature' },
)

/** Reverse capacitance of all devices. */
export const totalReverse = /*#__PURE__*/ formula({
  symbol: 'C_gdn',
  quantity: 'reverse capacitance of all devices',
  unit: 'F',
  inputs: { n: ['1', 1, 8], C_gd: ['F', 1e-12, 1e-9] },
  expression: 'n * C_gd',
  compute: ({ n, C_gd }) => n * C_gd,
  source: 'parallel connection',
})

/** Input capacitance of all devices. */
export const totalInput = /*#__PURE__*/ formula({
  symbol: 'C_issn',
  quantity: 'input capacitance of all devices',
  unit: 'F',
  inputs: { n: ['1', 1, 8], C_iss: ['F', 1e-11, 1e-7] },
  expression: 'n * C_iss',
  compute: ({ n, C_iss }) => n * C_iss,
  source: 'parallel connection',
})

/** Gate level that the rising rail couples in when the cell makes contact. */
export const contactLevel = /*#__PURE__*/ at(
  coupledLevel,
  'V_cpl',
  (x: Values<'R_hold' | 'C_gdn' | 'V_oc' | 't_ins' | 'C_issn'>) => ({
    R_goff: x.R_hold,
    C_gd: x.C_gdn,
    V_step: x.V_oc,
    t_step: x.t_ins,
    C_iss: x.C_issn,
  }),
  { quantity: 'gate-source voltage coupled when the cell makes contact' },
)

/** How long the coupled level may hold the gate over its threshold: while the rail rises, and until the gate has emptied. */
export const contactTime = /*#__PURE__*/ formula({
  symbol: 't_con',
  quantity: 'conduction time when the cell makes contact',
  unit: 's',
  inputs: {
    t_ins: ['s', 1e-7, 1e-3],
    R_hold: ['ohm', 100, 1e7],
    C_issn: ['F', 1e-10, 1e-8],
    V_cpl: ['V', 0, 20],
    V_thair: ['V', 0.2, 4],
    V_min: ['V', 0.01, 0.1],
  },
  expression:
    '(t_ins + R_hold * C_issn * log(max(V_cpl / max(V_thair, V_min), 1))) * max(sign(V_cpl / max(V_thair, V_min) - 1), 0)',
  compute: ({ t_ins, R_hold, C_issn, V_cpl, V_thair, V_min }) => {
    const over = V_cpl / Math.max(V_thair, V_min)
    return (t_ins + R_hold * C_issn * Math.log(Math.max(over, 1))) * Math.max(Math.sign(over - 1), 0)
  },
  source: 'discharge of one pole, after the ramp; floor of the model',
  smooth: false,
})

/** Largest power of one device that conducts in part, into a resistance. */
export const contactPower = /*#__PURE__*/ formula({
  symbol: 'P_con',
  quantity: 'peak power when the cell makes contact',
  unit: 'W',
  inputs: { V_oc: ['V', 1, 60], I_max: ['A', 0.01, 100] },
  expression: 'V_oc * I_max / 4',
  compute: ({ V_oc, I_max }) => (V_oc * I_max) / 4,
  source: 'half the voltage at half the current',
})

/** The same into a load that holds its current. */
export const heldContactPower = /*#__PURE__*/ formula({
  symbol: 'P_con',
  quantity: 'peak power when the cell makes contact',
  unit: 'W',
  inputs: { V_oc: ['V', 1, 60], I_max: ['A', 0.01, 100] },
  expression: 'V_oc * I_max',
  compute: ({ V_oc, I_max }) => V_oc * I_max,
  source: 'full voltage at full current',
})

/** Junction after it conducted in part when the cell made contact, from the warmest air. */
export const contactTemperature = /*#__PURE__*/ formula({
  symbol: 'T_con',
  quantity: 'junction when the cell makes contact',
  unit: 'degC',
  inputs: { T_air: ['degC', -40, 90], Z_con: ['K/W', 0, 100], P_con: ['W', 0.01, 100] },
  expression: 'T_air + Z_con * P_con',
  compute: ({ T_air, Z_con, P_con }) => T_air + Z_con * P_con,
  source: 'definition of the transient thermal impedance',
})

/** Longer of the two edges. */
export const longerEdge = /*#__PURE__*/ formula({
  symbol: 't_slow',
  quantity: 'longer edge',
  unit: 's',
  inputs: { t_r: ['s', 1e-9, 1e-3], t_f: ['s', 1e-9, 1e-3] },
  expression: 'max(t_r, t_f)',
  compute: ({ t_r, t_f }) => Math.max(t_r, t_f),
  source: 'the worse of two',
  smooth: false,
})

/** Single-pulse power allowed from the hot junction on. */
export const hotPulsePower = /*#__PURE__*/ at(
  deratedPulsePower,
  'P_soa',
  (x: Values<'P_25' | 'T_lim' | 'T_hot' | 'T_25'>) => ({ P_25: x.P_25, T_lim: x.T_lim, T_j: x.T_hot, T_25: x.T_25 }),
)

/** Avalanche energy allowed from the hot junction on. */
export const hotAvalancheEnergy = /*#__PURE__*/ at(
  deratedAvalancheEnergy,
  'E_hot',
  (x: Values<'E_AS' | 'T_lim' | 'T_hot' | 'T_25'>) => ({ E_AS: x.E_AS, T_lim: x.T_lim, T_j: x.T_hot, T_25: x.T_25 }),
)

/** Junction temperature that the loss at the limit would make: below the limit exactly where a balance is. */
export const limitTemperature = /*#__PURE__*/ at(
  junctionTemperature,
  'T_top',
  (x: Values<'T_a' | 'R_thJA' | 'P_top' | 'T_riptop' | 'T_edge'>) => ({
    T_a: x.T_a,
    R_thJA: x.R_thJA,
    P: x.P_top,
    T_rip: x.T_riptop,
    T_edge: x.T_edge,
  }),
  { quantity: 'junction temperature that the loss at its limit makes' },
)

/** Switching loss that a share of all loss allows. */
export const allowedSwitchingLoss = /*#__PURE__*/ formula({
  symbol: 'P_swmax',
  quantity: 'switching loss allowed, of one device',
  unit: 'W',
  inputs: { a_sw: ['1', 0.01, 0.99], P_top: ['W', 0.001, 20] },
  expression: 'a_sw * P_top',
  compute: ({ a_sw, P_top }) => a_sw * P_top,
  source: 'share that the designer allows',
})

/** Frequency at which switching makes a given share of the loss. */
export const shareFrequency = /*#__PURE__*/ formula({
  symbol: 'f_share',
  quantity: 'frequency at which switching makes the share allowed',
  unit: 'Hz',
  inputs: { a_sw: ['1', 0.01, 0.9], P_cond: ['W', 0.001, 20], f_edge: ['Hz', 1, 1e6], P_sw: ['W', 0.001, 20] },
  expression: 'a_sw * P_cond * f_edge / ((1 - a_sw) * P_sw)',
  compute: ({ a_sw, P_cond, f_edge, P_sw }) => (a_sw * P_cond * f_edge) / ((1 - a_sw) * P_sw),
  source: 'switching loss in proportion to the frequency',
})

/** Time that a duty leaves for an edge: of the smallest duty to switch on, of the rest of the largest to switch off. */
export const shortestTime = /*#__PURE__*/ formula({
  symbol: 't_least',
  quantity: 'shortest on-time or off-time',
  unit: 's',
  inputs: { D_least: ['1', 0.001, 1], f: ['Hz', 1, 1e6] },
  expression: 'D_least / f',
  compute: ({ D_least, f }) => D_least / f,
  source: 'share of a period',
})

/** Longest time constant of the gate: beyond a hundredth of the period the gate no longer follows its drive. */
export const longestTimeConstant = /*#__PURE__*/ formula({
  symbol: 'tau_max',
  quantity: 'longest time constant of the gate',
  unit: 's',
  inputs: { f: ['Hz', 1, 1e6] },
  expression: '0.01 / f',
  compute: ({ f }) => 0.01 / f,
  source: 'a hundredth of the period, common practice',
})

/** Drain-source voltage to stay below: a fifth of the rating is kept for what isn’t known. */
export const keptVoltage = /*#__PURE__*/ formula({
  symbol: 'V_DSkeep',
  quantity: 'drain-source voltage to stay below',
  unit: 'V',
  inputs: { V_DSmax: ['V', 10, 200] },
  expression: '0.8 * V_DSmax',
  compute: ({ V_DSmax }) => 0.8 * V_DSmax,
  source: 'four fifths of the rating, common practice',
})
