import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const I_L: InputRange = ['A', 0.01, 5]
const R_s: InputRange = ['ohm', 0.005, 0.2]

/** How far the rail comes back when the load is off. Pitfall K04. */
export const rebound = /*#__PURE__*/ formula({
  symbol: 'V_reb',
  quantity: 'rebound of the rail',
  unit: 'V',
  inputs: { I_L, R_s },
  expression: 'I_L * R_s',
  compute: ({ I_L, R_s }) => I_L * R_s,
  source: "Ohm's law",
})

/** What the hysteresis of a cut-off has left above rebound and noise. Pitfall K04. */
export const hysteresisSlack = /*#__PURE__*/ formula({
  symbol: 'dV_hys',
  quantity: 'hysteresis above rebound and noise',
  unit: 'V',
  inputs: { V_hys: ['V', 1.2, 3], V_reb: ['V', 0, 1], V_noise: ['V', 0, 0.1] },
  expression: 'V_hys - V_reb - V_noise',
  compute: ({ V_hys, V_reb, V_noise }) => V_hys - V_reb - V_noise,
  source: 'difference',
})

/** Open-circuit voltage as firmware estimates it from the loaded rail. Pitfall K05. */
export const estimatedOpenCircuit = /*#__PURE__*/ formula({
  symbol: 'V_est',
  quantity: 'estimated open-circuit voltage',
  unit: 'V',
  inputs: { V_rail: ['V', 1, 20], I_use: ['A', 0, 10], R_use: ['ohm', 0, 0.5] },
  expression: 'V_rail + I_use * R_use',
  compute: ({ V_rail, I_use, R_use }) => V_rail + I_use * R_use,
  source: "Ohm's law",
})

/** Open-circuit voltage at which a cut-off really acts that makes up for the sag with its own current and resistance. Pitfall K05. */
export const restAtCutOff = /*#__PURE__*/ formula({
  symbol: 'V_stop',
  quantity: 'open-circuit voltage at the cut-off',
  unit: 'V',
  inputs: { V_thr: ['V', 3, 10], I_use: ['A', 0, 5], R_use: ['ohm', 0, 0.2], I_L, R_s },
  expression: 'V_thr - I_use * R_use + I_L * R_s',
  compute: ({ V_thr, I_use, R_use, I_L, R_s }) => V_thr - I_use * R_use + I_L * R_s,
  source: "Ohm's law, at the threshold",
})

/**
 * How far the loaded rail at the cut-off stands above the brown-out: the first to be crossed wins. The brown-out reacts in
 * microseconds, a filtered cut-off in milliseconds. Pitfall K06.
 */
export const cutOffAboveReset = /*#__PURE__*/ formula({
  symbol: 'dV_first',
  quantity: 'loaded rail at the cut-off above the brown-out',
  unit: 'V',
  inputs: { V_stop: ['V', 4, 10], I_L, R_s, V_bod: ['V', 1.5, 2.9] },
  expression: 'V_stop - I_L * R_s - V_bod',
  compute: ({ V_stop, I_L, R_s, V_bod }) => V_stop - I_L * R_s - V_bod,
  source: "Ohm's law",
})
