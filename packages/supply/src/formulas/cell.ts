import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const n_s: InputRange = ['1', 1, 10]
const x_age: InputRange = ['1', 0, 1]

/**
 * How far a cell is off its curve: by `e_mid` at any charge, and by `e_low` more in the last tenth of it, for cells differ in
 * when they are empty. Pitfall K01.
 */
export const offCurve = /*#__PURE__*/ formula({
  symbol: 'e_oc',
  quantity: 'deviation of a cell from its curve',
  unit: 'V',
  inputs: { e_mid: ['V', -0.1, 0.1], e_low: ['V', -0.2, 0.2], q: ['1', 0, 1] },
  expression: 'e_mid + e_low * min(1, max(0, (0.25 - q) / 0.15))',
  smooth: false,
  compute: ({ e_mid, e_low, q }) => e_mid + e_low * Math.min(1, Math.max(0, (0.25 - q) / 0.15)),
  source: 'straight line between a quarter and a tenth of the charge: common practice, no source',
})

/** Open-circuit voltage of cells in series; `U_0` is read from the curve at the charge, `e_oc` is how far a cell is off it. */
export const batteryVoltage = /*#__PURE__*/ formula({
  symbol: 'V_bat',
  quantity: 'open-circuit voltage of the cells',
  unit: 'V',
  inputs: { n_s, U_0: ['V', 2, 4.3], e_oc: ['V', -0.1, 0.1] },
  expression: 'n_s * (U_0 + e_oc)',
  compute: ({ n_s, U_0, e_oc }) => n_s * (U_0 + e_oc),
  source: "Kirchhoff's voltage law",
})

/** By how much age has raised the resistance: a straight line from new (0) to the end of life (1). Pitfall K01. */
export const ageFactor = /*#__PURE__*/ formula({
  symbol: 'k_age',
  quantity: 'factor of the cell resistance by age',
  unit: '1',
  inputs: { k_old: ['1', 1, 5], x_age },
  expression: '1 + (k_old - 1) * x_age',
  compute: ({ k_old, x_age }) => 1 + (k_old - 1) * x_age,
  source: 'straight line between new and end of life: common practice, no source',
})

/** Resistance of cells in series, cold, empty and old as they are. Pitfall K01. */
export const batteryResistance = /*#__PURE__*/ formula({
  symbol: 'R_bat',
  quantity: 'resistance of the cells',
  unit: 'ohm',
  inputs: { n_s, R_cell: ['ohm', 0.005, 0.5], k_T: ['1', 0.5, 6], k_q: ['1', 0.8, 4], k_age: ['1', 1, 5] },
  expression: 'n_s * R_cell * k_T * k_q * k_age',
  compute: ({ n_s, R_cell, k_T, k_q, k_age }) => n_s * R_cell * k_T * k_q * k_age,
  source: 'resistances in series; factors of temperature, charge and age multiplied: common practice, no source',
})

/** Capacity that age has left: a straight line from new to the end of life. */
export const agedCapacity = /*#__PURE__*/ formula({
  symbol: 'Q_age',
  quantity: 'capacity left by age',
  unit: 'C',
  inputs: { Q_cell: ['C', 100, 1e5], k_Q: ['1', 0.5, 1], x_age },
  expression: 'Q_cell * (1 - (1 - k_Q) * x_age)',
  compute: ({ Q_cell, k_Q, x_age }) => Q_cell * (1 - (1 - k_Q) * x_age),
  source: 'straight line between new and end of life: common practice, no source',
})
