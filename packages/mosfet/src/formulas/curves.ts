import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const early: InputRange = ['s', 1e-6, 1e-2]
const late: InputRange = ['s', 2e-2, 1e3]
const now: InputRange = ['s', 1e-6, 1e3]
const impedance: InputRange = ['K/W', 0.01, 100]
const source = 'data sheet: its curve, straight in both logarithms between points'

/** Transient thermal impedance between two points of its curve. */
export const impedanceBetween = /*#__PURE__*/ formula({
  symbol: 'Z_th',
  quantity: 'transient thermal impedance',
  unit: 'K/W',
  inputs: { Z_1: impedance, Z_2: impedance, t_1: early, t_2: late, t_p: now },
  expression: 'Z_1 * (Z_2 / Z_1)^(log(t_p / t_1) / log(t_2 / t_1))',
  compute: ({ Z_1, Z_2, t_1, t_2, t_p }) => Z_1 * (Z_2 / Z_1) ** (Math.log(t_p / t_1) / Math.log(t_2 / t_1)),
  source,
})

/** The same before the first point: heat spreads into a thick body, and a shorter pulse heats less than that. */
export const earlyImpedance = /*#__PURE__*/ formula({
  symbol: 'Z_th',
  quantity: 'transient thermal impedance',
  unit: 'K/W',
  inputs: { Z_1: impedance, t_1: early, t_p: now },
  expression: 'Z_1 * sqrt(t_p / t_1)',
  compute: ({ Z_1, t_1, t_p }) => Z_1 * Math.sqrt(t_p / t_1),
  source: 'heat flow into a half-space: with the root of time',
})

/** Reverse transfer capacitance between two points of its curve. */
export const capacitanceBetween = /*#__PURE__*/ formula({
  symbol: 'C_rss',
  quantity: 'reverse transfer capacitance',
  unit: 'F',
  inputs: {
    C_1: ['F', 1e-10, 1e-8],
    C_2: ['F', 1e-11, 1e-10],
    V_1: ['V', 0.1, 1],
    V_2: ['V', 2, 20],
    V_DS: ['V', 0.1, 60],
  },
  expression: 'C_1 * (C_2 / C_1)^(log(V_DS / V_1) / log(V_2 / V_1))',
  compute: ({ C_1, C_2, V_1, V_2, V_DS }) => C_1 * (C_2 / C_1) ** (Math.log(V_DS / V_1) / Math.log(V_2 / V_1)),
  source,
})

/** Power of a single pulse between two points of the safe operating area. */
export const pulsePowerBetween = /*#__PURE__*/ formula({
  symbol: 'P_25',
  quantity: 'single-pulse power allowed, case at the reference temperature',
  unit: 'W',
  inputs: { P_1: ['W', 0.1, 1e4], P_2: ['W', 0.1, 1e4], t_1: early, t_2: late, t_p: now },
  expression: 'P_1 * (P_2 / P_1)^(log(t_p / t_1) / log(t_2 / t_1))',
  compute: ({ P_1, P_2, t_1, t_2, t_p }) => P_1 * (P_2 / P_1) ** (Math.log(t_p / t_1) / Math.log(t_2 / t_1)),
  source,
})

/** The same behind the last point: its energy, no more. */
export const latePulsePower = /*#__PURE__*/ formula({
  symbol: 'P_25',
  quantity: 'single-pulse power allowed, case at the reference temperature',
  unit: 'W',
  inputs: { P_2: ['W', 0.1, 1e4], t_2: late, t_p: now },
  expression: 'P_2 * t_2 / t_p',
  compute: ({ P_2, t_2, t_p }) => (P_2 * t_2) / t_p,
  source: 'the energy of the last point',
})

/** Thermal resistance between two copper areas, both in the same unit. */
export const copperResistance = /*#__PURE__*/ formula({
  symbol: 'R_cu',
  quantity: 'thermal resistance to ambient at a copper area',
  unit: 'K/W',
  inputs: {
    R_1: ['K/W', 50, 500],
    R_2: ['K/W', 5, 50],
    A_1: ['mm^2', 10, 100],
    A_2: ['mm^2', 200, 5000],
    A_cu: ['mm^2', 10, 5000],
  },
  expression: 'R_1 * (R_2 / R_1)^(log(A_cu / A_1) / log(A_2 / A_1))',
  compute: ({ R_1, R_2, A_1, A_2, A_cu }) => R_1 * (R_2 / R_1) ** (Math.log(A_cu / A_1) / Math.log(A_2 / A_1)),
  source,
})

/**
 * Where the curve of the data sheet settles, or the board’s own resistance where the curve goes on beyond it. The curve
 * is scaled by it: on more copper or cut off early it is too much for a short pulse, never too little for a long one.
 */
export const curveEnd = /*#__PURE__*/ formula({
  symbol: 'Z_end',
  quantity: 'end of the transient curve, at most the board’s own resistance',
  unit: 'K/W',
  inputs: { Z_last: ['K/W', 1, 500], R_thn: ['K/W', 1, 500] },
  expression: 'min(Z_last, R_thn)',
  compute: ({ Z_last, R_thn }) => Math.min(Z_last, R_thn),
  source: 'scaling of a curve that was taken on another board',
  smooth: false,
})

/** What bursts make of a board’s thermal resistance: the effective impedance, with the same relative spread. */
export const burstResistance = /*#__PURE__*/ formula({
  symbol: 'R_thJA',
  quantity: 'effective thermal impedance of the bursts',
  unit: 'K/W',
  inputs: { R_thDC: ['K/W', 1, 500], Z_b: ['K/W', 0.01, 500], Z_end: ['K/W', 1, 500] },
  expression: 'R_thDC * (Z_b / Z_end)',
  compute: ({ R_thDC, Z_b, Z_end }) => R_thDC * (Z_b / Z_end),
  source: 'superposition of the steps of power, scaled to the board',
})
