import type { Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

/** Capacitance that acts, of all parts of one kind. */
export const effectiveCapacitance = /*#__PURE__*/ formula({
  symbol: 'C',
  quantity: 'effective capacitance',
  unit: 'F',
  inputs: {
    n_C: ['1', 1, 20],
    C_r: ['F', 1e-8, 1e-2],
    k_bias: ['1', 0.1, 1],
    k_temp: ['1', 0.3, 1.2],
    k_life: ['1', 0.6, 1],
  },
  expression: 'n_C * C_r * k_bias * k_temp * k_life',
  compute: ({ n_C, C_r, k_bias, k_temp, k_life }) => n_C * C_r * k_bias * k_temp * k_life,
  source: 'common practice: independent factors for dc bias, temperature and ageing',
})

/** Series resistance that acts, of all parts of one kind in parallel. */
export const effectiveSeriesResistance = /*#__PURE__*/ formula({
  symbol: 'ESR',
  quantity: 'effective series resistance',
  unit: 'ohm',
  inputs: { ESR_r: ['ohm', 1e-3, 5], k_cold: ['1', 1, 100], n_C: ['1', 1, 20] },
  expression: 'ESR_r * k_cold / n_C',
  compute: ({ ESR_r, k_cold, n_C }) => (ESR_r * k_cold) / n_C,
  source: 'equal parts in parallel',
})

/** Capacitance of all parts of one kind at 0 V, from where they charge at insertion. */
export const emptyCapacitance = /*#__PURE__*/ formula({
  symbol: 'C_e',
  quantity: 'capacitance at 0 V',
  unit: 'F',
  inputs: { n_C: ['1', 1, 20], C_r: ['F', 1e-8, 1e-2], k_temp: ['1', 0.3, 1.2], k_life: ['1', 0.6, 1] },
  expression: 'n_C * C_r * k_temp * k_life',
  compute: ({ n_C, C_r, k_temp, k_life }) => n_C * C_r * k_temp * k_life,
  source: 'common practice: independent factors for temperature and ageing',
})

/** The most that the series resistance of all parts of one kind may be at insertion: dried out not at all. */
export const mostAtInsertion = /*#__PURE__*/ formula({
  symbol: 'ESR_new',
  quantity: 'largest series resistance at insertion',
  unit: 'ohm',
  inputs: { ESR_r: ['ohm', 1e-3, 5], k_new: ['1', 1, 100], n_C: ['1', 1, 20] },
  expression: 'ESR_r * k_new / n_C',
  compute: ({ ESR_r, k_new, n_C }) => (ESR_r * k_new) / n_C,
  source: 'equal parts in parallel',
})

/** The least that it may be there: what is stated by its largest value alone damps less. */
export const leastAtInsertion = /*#__PURE__*/ formula({
  symbol: 'ESR_e',
  quantity: 'least series resistance at insertion',
  unit: 'ohm',
  inputs: { k_least: ['1', 0.1, 1], ESR_new: ['ohm', 1e-4, 5] },
  expression: 'k_least * ESR_new',
  compute: ({ k_least, ESR_new }) => k_least * ESR_new,
  source: 'common practice: typical values are a third to two thirds of the largest',
})

/** Series inductance of all parts of one kind in parallel. */
export const effectiveSeriesInductance = /*#__PURE__*/ formula({
  symbol: 'L_C',
  quantity: 'effective series inductance',
  unit: 'H',
  inputs: { ESL: ['H', 1e-10, 1e-7], n_C: ['1', 1, 20] },
  expression: 'ESL / n_C',
  compute: ({ ESL, n_C }) => ESL / n_C,
  source: 'equal parts in parallel, their fields apart',
})

/** Capacitance of two kinds side by side, for where the rail is slow against both. */
export const capacitanceOfTwo = /*#__PURE__*/ formula({
  symbol: 'C',
  quantity: 'effective capacitance of both kinds',
  unit: 'F',
  inputs: { C_1: ['F', 1e-8, 1e-2], C_2: ['F', 1e-8, 1e-2] },
  expression: 'C_1 + C_2',
  compute: ({ C_1, C_2 }) => C_1 + C_2,
  source: 'capacitors in parallel',
})

/** Series resistance of two kinds side by side, for where the rail is fast against both. */
export const seriesResistanceOfTwo = /*#__PURE__*/ formula({
  symbol: 'ESR',
  quantity: 'effective series resistance of both kinds',
  unit: 'ohm',
  inputs: { ESR_1: ['ohm', 1e-3, 5], ESR_2: ['ohm', 1e-3, 5] },
  expression: '1 / (1 / ESR_1 + 1 / ESR_2)',
  compute: ({ ESR_1, ESR_2 }) => 1 / (1 / ESR_1 + 1 / ESR_2),
  source: 'resistances in parallel',
})

/** Capacitance of two kinds side by side at 0 V. */
export const emptyOfTwo = /*#__PURE__*/ at(
  capacitanceOfTwo,
  'C_e',
  (x: Values<'C_e1' | 'C_e2'>) => ({ C_1: x.C_e1, C_2: x.C_e2 }),
  { quantity: 'capacitance of both kinds at 0 V' },
)

/** Least series resistance of two kinds side by side at insertion. */
export const leastOfTwo = /*#__PURE__*/ at(
  seriesResistanceOfTwo,
  'ESR_e',
  (x: Values<'ESR_e1' | 'ESR_e2'>) => ({ ESR_1: x.ESR_e1, ESR_2: x.ESR_e2 }),
  { quantity: 'least series resistance of both kinds at insertion' },
)

/** Charge in a capacitance. */
export const charge = /*#__PURE__*/ formula({
  symbol: 'Q_C',
  quantity: 'charge',
  unit: 'C',
  inputs: { C_e: ['F', 1e-7, 1], V_s: ['V', 1, 30] },
  expression: 'C_e * V_s',
  compute: ({ C_e, V_s }) => C_e * V_s,
  source: 'definition of capacitance',
})

/** Energy in a capacitance. */
export const energy = /*#__PURE__*/ formula({
  symbol: 'E_C',
  quantity: 'stored energy',
  unit: 'J',
  inputs: { C_e: ['F', 1e-7, 1], V_s: ['V', 1, 30] },
  expression: 'C_e * V_s^2 / 2',
  compute: ({ C_e, V_s }) => (C_e * V_s * V_s) / 2,
  source: 'energy of a capacitor',
})
