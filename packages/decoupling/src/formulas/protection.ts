import type { Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

const safe = 'common practice: 30 % away from a limit that depends on temperature and age'
const k_safe = ['1', 0.5, 0.9] as const

/** Current at which a protection circuit that watches the drop across its two switches trips. */
export const tripCurrent = /*#__PURE__*/ formula({
  symbol: 'I_trip',
  quantity: 'trip current of the protection',
  unit: 'A',
  inputs: { V_trip: ['V', 0.03, 1.5], R_prot: ['ohm', 0.005, 0.2] },
  expression: 'V_trip / R_prot',
  compute: ({ V_trip, R_prot }) => V_trip / R_prot,
  source: "Ohm's law",
})

/** The same of its short-circuit detection. */
export const shortTripCurrent = /*#__PURE__*/ at(tripCurrent, 'I_shtrip', (x: Values<'V_short' | 'R_prot'>) => ({
  V_trip: x.V_short,
  R_prot: x.R_prot,
}))

/** Largest current that a protection is let carry. */
export const safeCurrent = /*#__PURE__*/ formula({
  symbol: 'I_safe',
  quantity: 'largest current allowed through the protection',
  unit: 'A',
  inputs: { k_safe, I_trip: ['A', 1, 100] },
  expression: 'k_safe * I_trip',
  compute: ({ k_safe, I_trip }) => k_safe * I_trip,
  source: safe,
})

/** Largest constant power that is allowed. */
export const safePower = /*#__PURE__*/ formula({
  symbol: 'P_safe',
  quantity: 'largest constant power that is allowed',
  unit: 'W',
  inputs: { k_safe, P_max: ['W', 0.1, 100] },
  expression: 'k_safe * P_max',
  compute: ({ k_safe, P_max }) => k_safe * P_max,
  source: safe,
})

/** Current of the source where the rail is lowest and stands still for a moment: the loop's inductance takes nothing then. */
export const currentAtLowest = /*#__PURE__*/ formula({
  symbol: 'I_low',
  quantity: 'source current at the lowest rail',
  unit: 'A',
  inputs: { V_s: ['V', 3, 15], V_min: ['V', 0, 2.9], R_s: ['ohm', 0.005, 2] },
  expression: '(V_s - V_min) / R_s',
  compute: ({ V_s, V_min, R_s }) => (V_s - V_min) / R_s,
  source: "Ohm's law",
})

/** Current that a source gives into a short. */
export const shortCurrent = /*#__PURE__*/ formula({
  symbol: 'I_short',
  quantity: 'current into a short',
  unit: 'A',
  inputs: { V_s: ['V', 1, 15], R_s: ['ohm', 0.005, 2] },
  expression: 'V_s / R_s',
  compute: ({ V_s, R_s }) => V_s / R_s,
  source: "Ohm's law",
})
