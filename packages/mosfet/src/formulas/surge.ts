import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const L_w: InputRange = ['H', 1e-9, 1e-5]
const I_max: InputRange = ['A', 0.01, 100]
const V_oc: InputRange = ['V', 1, 20]

/** Drain-source voltage when the wiring's current is switched off in `t_f`. Pitfall H12. */
export const turnOffPeak = /*#__PURE__*/ formula({
  symbol: 'V_pk',
  quantity: 'drain-source voltage at turn-off',
  unit: 'V',
  inputs: { V_oc, L_w, I_max, t_f: ['s', 1e-8, 1e-3] },
  expression: 'V_oc + L_w * I_max / t_f',
  compute: ({ V_oc, L_w, I_max, t_f }) => V_oc + (L_w * I_max) / t_f,
  source: 'law of induction, linear fall of the current',
})

/** Energy in the wiring's inductance at turn-off. */
export const wiringEnergy = /*#__PURE__*/ formula({
  symbol: 'E_w',
  quantity: 'energy of the wiring inductance',
  unit: 'J',
  inputs: { L_w, I_max },
  expression: 'L_w * I_max^2 / 2',
  compute: ({ L_w, I_max }) => (L_w * I_max ** 2) / 2,
  source: 'energy of an inductance',
})

/** Energy that one device takes in avalanche: the source goes on feeding the inductance while its current falls. */
export const avalancheEnergy = /*#__PURE__*/ formula({
  symbol: 'E_av',
  quantity: 'avalanche energy if nothing else clamps',
  unit: 'J',
  inputs: { E_w: ['J', 1e-9, 0.1], V_DSmax: ['V', 25, 200], V_oc },
  expression: 'E_w * V_DSmax / (V_DSmax - V_oc)',
  compute: ({ E_w, V_DSmax, V_oc }) => (E_w * V_DSmax) / (V_DSmax - V_oc),
  source: 'integral of the breakdown voltage over the falling current',
})

/** The same where a freewheeling diode carries the load's current on: it adds its drop to the source. */
export const inductiveAvalancheEnergy = /*#__PURE__*/ formula({
  symbol: 'E_av',
  quantity: 'avalanche energy if nothing else clamps',
  unit: 'J',
  inputs: { E_w: ['J', 1e-9, 0.1], V_DSmax: ['V', 25, 200], V_oc, V_F: ['V', 0, 2] },
  expression: 'E_w * V_DSmax / (V_DSmax - V_oc - V_F)',
  compute: ({ E_w, V_DSmax, V_oc, V_F }) => (E_w * V_DSmax) / (V_DSmax - V_oc - V_F),
  source: 'integral of the breakdown voltage over the falling current',
})

/** Avalanche energy that is left of the rating at 25 °C when the junction starts hot. */
export const deratedAvalancheEnergy = /*#__PURE__*/ formula({
  symbol: 'E_hot',
  quantity: 'avalanche energy allowed, hot',
  unit: 'J',
  inputs: { E_AS: ['J', 1e-6, 1], T_lim: ['degC', 100, 200], T_j: ['degC', -40, 90], T_25: ['degC', 20, 30] },
  expression: 'E_AS * ((T_lim - T_j) / (T_lim - T_25))^2',
  compute: ({ E_AS, T_lim, T_j, T_25 }) => E_AS * ((T_lim - T_j) / (T_lim - T_25)) ** 2,
  source: 'a pulse of given power heats with the root of its length, to the junction limit',
})

/** Single-pulse power that the safe operating area leaves at a hot junction; `P_25` is that at 25 °C. */
export const deratedPulsePower = /*#__PURE__*/ formula({
  symbol: 'P_soa',
  quantity: 'single-pulse power allowed, hot',
  unit: 'W',
  inputs: { P_25: ['W', 0.1, 1e4], T_lim: ['degC', 100, 200], T_j: ['degC', -40, 90], T_25: ['degC', 20, 30] },
  expression: 'P_25 * (T_lim - T_j) / (T_lim - T_25)',
  compute: ({ P_25, T_lim, T_j, T_25 }) => (P_25 * (T_lim - T_j)) / (T_lim - T_25),
  source: 'linear derating to the junction limit',
})
