import { formula } from '@ohmward/budget/formula'

/** Peak current at insertion of a cell onto an empty capacitor, nothing but resistance in the loop. */
export const inrush = /*#__PURE__*/ formula({
  symbol: 'I_in',
  quantity: 'peak current at insertion',
  unit: 'A',
  inputs: { V_s: ['V', 1, 30], R_s: ['ohm', 0.005, 2], ESR_e: ['ohm', 0.001, 1] },
  expression: 'V_s / (R_s + ESR_e)',
  compute: ({ V_s, R_s, ESR_e }) => V_s / (R_s + ESR_e),
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

/** Time to charge a capacitance from a supply at its current limit. */
export const chargingTime = /*#__PURE__*/ formula({
  symbol: 't_charge',
  quantity: 'charging time at the current limit',
  unit: 's',
  inputs: { C: ['F', 1e-7, 1], V_s: ['V', 1, 30], I_lim: ['A', 0.05, 5] },
  expression: 'C * V_s / I_lim',
  compute: ({ C, V_s, I_lim }) => (C * V_s) / I_lim,
  source: 'charge of a capacitor by a constant current',
})

/** Charge that flows into capacitors from 0 V where they lose capacitance to their voltage. */
export const biasedCharge = /*#__PURE__*/ formula({
  symbol: 'Q_C',
  quantity: 'charge',
  unit: 'C',
  inputs: { k_Q: ['1', 0.2, 1], C_e: ['F', 1e-7, 1], V_s: ['V', 1, 30] },
  expression: 'k_Q * C_e * V_s',
  compute: ({ k_Q, C_e, V_s }) => k_Q * C_e * V_s,
  source: 'integral of the differential capacitance over the voltage; k_Q is its mean, of that without bias',
})

/** Energy in capacitors that lose capacitance to their voltage. */
export const biasedEnergy = /*#__PURE__*/ formula({
  symbol: 'E_C',
  quantity: 'stored energy',
  unit: 'J',
  inputs: { k_E: ['1', 0.2, 1], C_e: ['F', 1e-7, 1], V_s: ['V', 1, 30] },
  expression: 'k_E * C_e * V_s^2 / 2',
  compute: ({ k_E, C_e, V_s }) => (k_E * C_e * V_s * V_s) / 2,
  source:
    'integral of voltage times differential capacitance; k_E is its mean weighted by the voltage, of that without bias',
})
