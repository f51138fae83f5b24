import type { InputRange, Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'
import { conductionLoss, hotResistance, loadCurrent } from './conduction.js'

const celsius: InputRange = ['degC', -40, 90]
const R_thJA: InputRange = ['K/W', 1, 500]
const power: InputRange = ['W', 0.001, 20]
const rise: InputRange = ['K', 0, 100]

/** Loss that heats one junction. */
export const totalLoss = /*#__PURE__*/ formula({
  symbol: 'P',
  quantity: 'loss of one device',
  unit: 'W',
  inputs: { P_cond: power, P_sw: power },
  expression: 'P_cond + P_sw',
  compute: ({ P_cond, P_sw }) => P_cond + P_sw,
  source: 'sum',
})

/** Junction temperature in balance, at the end of a pulse: the loss is that at this very temperature. */
export const junctionTemperature = /*#__PURE__*/ formula({
  symbol: 'T_j',
  quantity: 'junction temperature',
  unit: 'degC',
  inputs: { T_a: celsius, R_thJA, P: power, T_rip: rise, T_edge: rise },
  expression: 'T_a + R_thJA * P + T_rip + T_edge',
  compute: ({ T_a, R_thJA, P, T_rip, T_edge }) => T_a + R_thJA * P + T_rip + T_edge,
  source: 'definition of the thermal resistance from junction to ambient (JESD51-1, from memory); superposition',
})

/** On-resistance of one device at the rated junction limit, where the temperature factor is `rho_top`. */
export const limitResistance = /*#__PURE__*/ at(
  hotResistance,
  'R_top',
  (x: Values<'R_on' | 'rho_top'>) => ({ R_on: x.R_on, rho: x.rho_top }),
  { quantity: 'on-resistance at the junction limit' },
)

/** Load current with the junction at its limit. */
export const limitCurrent = /*#__PURE__*/ at(
  loadCurrent,
  'I_top',
  (x: Values<'V_oc' | 'R_s' | 'R_L' | 'R_sh' | 'R_top' | 'n'>) => ({
    V_oc: x.V_oc,
    R_s: x.R_s,
    R_L: x.R_L,
    R_sh: x.R_sh,
    R_hot: x.R_top,
    n: x.n,
  }),
  { quantity: 'load current with the junction at its limit' },
)

/** The same where the load holds its current. */
export const heldLimitCurrent = /*#__PURE__*/ formula({
  symbol: 'I_top',
  quantity: 'load current, held by the load',
  unit: 'A',
  inputs: { I_set: ['A', 0.01, 100] },
  expression: 'I_set',
  compute: ({ I_set }) => I_set,
  source: 'constant-current load',
})

/** Conduction loss with the junction at its limit. */
export const limitConductionLoss = /*#__PURE__*/ at(
  conductionLoss,
  'P_ctop',
  (x: Values<'I_top' | 'n' | 'D_on' | 'R_top'>) => ({ I: x.I_top, n: x.n, D: x.D_on, R_hot: x.R_top }),
  { quantity: 'conduction loss at the junction limit' },
)

/** Loss with the junction at its limit. */
export const limitLoss = /*#__PURE__*/ at(
  totalLoss,
  'P_top',
  (x: Values<'P_ctop' | 'P_sw'>) => ({ P_cond: x.P_ctop, P_sw: x.P_sw }),
  { quantity: 'loss at the junction limit' },
)

/** The same of the hottest of several unlike devices: it conducts `k_n` times its share and bears all edges alone. */
export const unevenTemperature = /*#__PURE__*/ formula({
  symbol: 'T_one',
  quantity: 'junction of the hottest of several devices, heated by the loss at its limit',
  unit: 'degC',
  inputs: {
    T_a: celsius,
    R_thJA,
    k_n: ['1', 1, 3],
    P_ctop: power,
    T_riptop: rise,
    n: ['1', 1, 8],
    P_sw: power,
    T_edge: rise,
  },
  expression: 'T_a + k_n * (R_thJA * P_ctop + T_riptop) + n * (R_thJA * P_sw + T_edge)',
  compute: ({ T_a, R_thJA, k_n, P_ctop, T_riptop, n, P_sw, T_edge }) =>
    T_a + k_n * (R_thJA * P_ctop + T_riptop) + n * (R_thJA * P_sw + T_edge),
  source: 'definition of the thermal resistance; superposition; the lowest threshold switches first and last',
})

/**
 * What the board can still cool with the junction at its limit: positive where the balance lies below the limit.
 * Finite for every board, runaway or not, so budgets and probabilities are made of it.
 */
export const thermalSlack = /*#__PURE__*/ formula({
  symbol: 'T_spare',
  quantity: 'thermal headroom at the junction limit',
  unit: 'K',
  inputs: { T_lim: ['degC', 100, 200], T_a: celsius, R_thJA, P_top: power, T_riptop: rise, T_edge: rise },
  expression: 'T_lim - T_a - R_thJA * P_top - T_riptop - T_edge',
  compute: ({ T_lim, T_a, R_thJA, P_top, T_riptop, T_edge }) => T_lim - T_a - R_thJA * P_top - T_riptop - T_edge,
  source: 'balance of heat at the junction limit',
})

/** Largest thermal resistance that keeps the junction at its limit, for a known loss. */
export const largestThermalResistance = /*#__PURE__*/ formula({
  symbol: 'R_thmax',
  quantity: 'largest thermal resistance to ambient',
  unit: 'K/W',
  inputs: { T_lim: ['degC', 100, 200], T_a: celsius, P_top: power },
  expression: '(T_lim - T_a) / P_top',
  compute: ({ T_lim, T_a, P_top }) => (T_lim - T_a) / P_top,
  source: 'definition of the thermal resistance',
})

/** The same where pulses add to the mean: every rise goes with the thermal resistance of the board. */
export const largestPulsedResistance = /*#__PURE__*/ formula({
  symbol: 'R_thmax',
  quantity: 'largest thermal resistance to ambient',
  unit: 'K/W',
  inputs: { R_thJA, T_lim: ['degC', 100, 200], T_a: celsius, T_top: ['degC', 91, 500] },
  expression: 'R_thJA * (T_lim - T_a) / (T_top - T_a)',
  compute: ({ R_thJA, T_lim, T_a, T_top }) => (R_thJA * (T_lim - T_a)) / (T_top - T_a),
  source: 'rises in proportion to the thermal resistance of the board',
})

/** Current at which a linear law has no balance at any temperature; switching loss doesn't move it. Pitfall H05. */
export const linearRunawayCurrent = /*#__PURE__*/ formula({
  symbol: 'I_run',
  quantity: 'asymptote of runaway',
  unit: 'A',
  inputs: { n: ['1', 1, 8], R_thJA, D: ['1', 0.01, 1], R_on: ['ohm', 1e-4, 1], a_R: ['1/K', 1e-3, 0.008] },
  expression: 'n / sqrt(R_thJA * D * R_on * a_R)',
  compute: ({ n, R_thJA, D, R_on, a_R }) => n / Math.sqrt(R_thJA * D * R_on * a_R),
  source: 'loop gain 1: R_thJA times the slope of the loss',
})
