import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const I_el: InputRange = ['A', 0.01, 30]
const R_el: InputRange = ['ohm', 1e-4, 0.1]
const alpha_el: InputRange = ['1/K', 0, 0.005]

/** Resistance of a conductor at its temperature, against that at 20 °C. */
export const warmResistance = /*#__PURE__*/ formula({
  symbol: 'R_el',
  quantity: 'resistance of an element of the path, warm',
  unit: 'ohm',
  inputs: { R_20: ['ohm', 1e-4, 1], alpha_el, dT_el: ['K', -60, 150] },
  expression: 'R_20 * (1 + alpha_el * dT_el)',
  compute: ({ R_20, alpha_el, dT_el }) => R_20 * (1 + alpha_el * dT_el),
  source: 'linear temperature coefficient; of copper 0.00393 1/K from 20 °C, IEC 60028:1925',
})

/** Power lost in an element of the path: in its resistance, and in a diode's forward voltage. Pitfall K13. */
export const elementLoss = /*#__PURE__*/ formula({
  symbol: 'P_el',
  quantity: 'power lost in an element of the path',
  unit: 'W',
  inputs: { I_el, R_el, V_el: ['V', 0, 1] },
  expression: 'I_el^2 * R_el + I_el * V_el',
  compute: ({ I_el, R_el, V_el }) => I_el * I_el * R_el + I_el * V_el,
  source: "Joule's law",
})

/** Voltage lost in an element of the path. Pitfall K13. */
export const elementDrop = /*#__PURE__*/ formula({
  symbol: 'dV_el',
  quantity: 'voltage lost in an element of the path',
  unit: 'V',
  inputs: { I_el, R_el, V_el: ['V', 0, 1] },
  expression: 'I_el * R_el + V_el',
  compute: ({ I_el, R_el, V_el }) => I_el * R_el + V_el,
  source: "Ohm's law",
})

/**
 * How far an element warms itself, its resistance rising as it does. Where `g_el` reaches 1 there is no such temperature:
 * it runs away.
 */
export const elementRise = /*#__PURE__*/ formula({
  symbol: 'dT_rise',
  quantity: 'temperature rise of an element of the path',
  unit: 'K',
  inputs: { R_thel: ['K/W', 1, 200], P_el: ['W', 0, 10], g_el: ['1', 0, 0.9] },
  expression: 'R_thel * P_el / (1 - g_el)',
  compute: ({ R_thel, P_el, g_el }) => (R_thel * P_el) / (1 - g_el),
  source: 'thermal resistance, with a resistance that rises straight with temperature',
})

/** By how much of itself the warming of an element feeds itself. */
export const elementGain = /*#__PURE__*/ formula({
  symbol: 'g_el',
  quantity: 'loop gain of the self-heating',
  unit: '1',
  inputs: { R_thel: ['K/W', 1, 200], I_el, R_20: ['ohm', 1e-4, 1], alpha_el },
  expression: 'R_thel * I_el^2 * R_20 * alpha_el',
  compute: ({ R_thel, I_el, R_20, alpha_el }) => R_thel * I_el * I_el * R_20 * alpha_el,
  source: 'derivative of the loss by the temperature, times the thermal resistance',
})

/**
 * What an element's highest temperature has left, its loss taken at that temperature: finite where it runs away too, and
 * its sign says whether it stays below.
 */
export const elementHeadroom = /*#__PURE__*/ formula({
  symbol: 'dT_left',
  quantity: 'temperature rise still allowed',
  unit: 'K',
  inputs: { dT_most: ['K', 20, 150], R_thel: ['K/W', 1, 200], P_el: ['W', 0, 10] },
  expression: 'dT_most - R_thel * P_el',
  compute: ({ dT_most, R_thel, P_el }) => dT_most - R_thel * P_el,
  source: 'thermal resistance; the loss at the highest temperature',
})

/** Current at which a protection trips that watches the drop across its switches. Pitfall K03. */
export const protectionTrip = /*#__PURE__*/ formula({
  symbol: 'I_trip',
  quantity: 'trip current of the protection',
  unit: 'A',
  inputs: { V_trip: ['V', 0.03, 1.5], R_el },
  expression: 'V_trip / R_el',
  compute: ({ V_trip, R_el }) => V_trip / R_el,
  source: "Ohm's law",
})

/** What is left between a burst and the current that trips, a share of which is used at most. Pitfall K03. */
export const tripSlack = /*#__PURE__*/ formula({
  symbol: 'dI_trip',
  quantity: 'burst current below the usable share of the trip current',
  unit: 'A',
  inputs: { k_trip: ['1', 0.1, 1], I_trip: ['A', 10, 50], I_el: ['A', 0.01, 9] },
  expression: 'k_trip * I_trip - I_el',
  compute: ({ k_trip, I_trip, I_el }) => k_trip * I_trip - I_el,
  source: 'difference; 0.7 of the least trip current: common practice, no source',
})
