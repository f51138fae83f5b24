import { formula } from '@ohmward/budget'

/** Peak current at insertion of a cell onto an empty capacitor, nothing but resistance in the loop. */
export const inrush = /*#__PURE__*/ formula({
  symbol: 'I_in',
  quantity: 'peak current at insertion',
  unit: 'A',
  inputs: { V_oc: ['V', 1, 30], R_s: ['ohm', 0.005, 2], ESR: ['ohm', 0.001, 1] },
  expression: 'V_oc / (R_s + ESR)',
  compute: ({ V_oc, R_s, ESR }) => V_oc / (R_s + ESR),
  source: "Ohm's law",
})

/** How long the inrush stays above a level that it passes: what a protection's delay must outlast. */
export const inrushTime = /*#__PURE__*/ formula({
  symbol: 't_in',
  quantity: 'time above the trip current at insertion',
  unit: 's',
  inputs: { tau_I: ['s', 1e-6, 1], I_in: ['A', 20, 500], I_trip: ['A', 1, 19] },
  expression: 'tau_I * log(I_in / I_trip)',
  compute: ({ tau_I, I_in, I_trip }) => tau_I * Math.log(I_in / I_trip),
  source: 'decay of a first-order circuit',
})

/** Current at which a protection circuit that watches the drop across its two switches trips. */
export const tripCurrent = /*#__PURE__*/ formula({
  symbol: 'I_trip',
  quantity: 'trip current of the protection',
  unit: 'A',
  inputs: { V_trip: ['V', 0.03, 1.5], R_pair: ['ohm', 0.005, 0.2] },
  expression: 'V_trip / R_pair',
  compute: ({ V_trip, R_pair }) => V_trip / R_pair,
  source: "Ohm's law",
})

/** Time to charge a capacitance from a supply at its current limit. */
export const chargingTime = /*#__PURE__*/ formula({
  symbol: 't_charge',
  quantity: 'charging time at the current limit',
  unit: 's',
  inputs: { C: ['F', 1e-7, 1], V_oc: ['V', 1, 30], I_lim: ['A', 0.05, 5] },
  expression: 'C * V_oc / I_lim',
  compute: ({ C, V_oc, I_lim }) => (C * V_oc) / I_lim,
  source: 'charge of a capacitor by a constant current',
})

/** Charge that flows into capacitors from 0 V where they lose capacitance to their voltage. */
export const biasedCharge = /*#__PURE__*/ formula({
  symbol: 'Q_C',
  quantity: 'charge',
  unit: 'C',
  inputs: { k_Q: ['1', 0.2, 1], C_0: ['F', 1e-7, 1], V_oc: ['V', 1, 30] },
  expression: 'k_Q * C_0 * V_oc',
  compute: ({ k_Q, C_0, V_oc }) => k_Q * C_0 * V_oc,
  source: 'integral of the differential capacitance over the voltage; k_Q is its mean, of that without bias',
})

/** Energy in capacitors that lose capacitance to their voltage. */
export const biasedEnergy = /*#__PURE__*/ formula({
  symbol: 'E_C',
  quantity: 'stored energy',
  unit: 'J',
  inputs: { k_E: ['1', 0.2, 1], C_0: ['F', 1e-7, 1], V_oc: ['V', 1, 30] },
  expression: 'k_E * C_0 * V_oc^2 / 2',
  compute: ({ k_E, C_0, V_oc }) => (k_E * C_0 * V_oc * V_oc) / 2,
  source:
    'integral of voltage times differential capacitance; k_E is its mean weighted by the voltage, of that without bias',
})
