import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const I_log: InputRange = ['A', 1e-5, 0.01]
const t_sag: InputRange = ['s', 1e-4, 0.1]
const C_h: InputRange = ['F', 1e-3, 1e-2]
const V_log: InputRange = ['V', 3, 15]
const discharge = 'discharge of a capacitor by a constant current'

/** Rail behind a resistor, at rest. Pitfall J07. */
export const resistorRail = /*#__PURE__*/ formula({
  symbol: 'V_log',
  quantity: 'rail behind the resistor',
  unit: 'V',
  inputs: { V_raw: ['V', 2, 15], I_log, R_iso: ['ohm', 0.1, 100] },
  expression: 'V_raw - I_log * R_iso',
  compute: ({ V_raw, I_log, R_iso }) => V_raw - I_log * R_iso,
  source: "Ohm's law",
})

/** Rail behind a diode that blocks, after the time that the raw rail is too low: the whole burst if need be. Pitfall J05. */
export const heldRail = /*#__PURE__*/ formula({
  symbol: 'V_held',
  quantity: 'rail held by its capacitor',
  unit: 'V',
  inputs: { V_log, I_log, t_sag, C_h },
  expression: 'V_log - I_log * t_sag / C_h',
  compute: ({ V_log, I_log, t_sag, C_h }) => V_log - (I_log * t_sag) / C_h,
  source: discharge,
})

/** Rail behind a resistor and its capacitor after a time of sag. Pitfall J07. */
export const filteredRail = /*#__PURE__*/ formula({
  symbol: 'V_held',
  quantity: 'rail behind resistor and capacitor',
  unit: 'V',
  inputs: {
    V_sag: ['V', 2, 5],
    I_log,
    R_iso: ['ohm', 0.1, 100],
    V_rest: ['V', 5, 15],
    t_sag,
    C_h,
  },
  expression: 'V_sag - I_log * R_iso + (V_rest - V_sag) * exp(-t_sag / (R_iso * C_h))',
  compute: ({ V_sag, I_log, R_iso, V_rest, t_sag, C_h }) =>
    V_sag - I_log * R_iso + (V_rest - V_sag) * Math.exp(-t_sag / (R_iso * C_h)),
  source: 'first-order step, from rest to the sag',
})

/** The same where sags follow each other, and the rail comes back in between only as far as the time lets it. Pitfall J07. */
export const repeatedRail = /*#__PURE__*/ formula({
  symbol: 'V_held',
  quantity: 'rail behind resistor and capacitor, sag after sag',
  unit: 'V',
  inputs: {
    V_sag: ['V', 2, 5],
    I_log,
    R_iso: ['ohm', 0.1, 100],
    V_rest: ['V', 5, 15],
    t_sag,
    C_h,
    t_off: ['s', 0, 1],
  },
  expression:
    'V_sag - I_log * R_iso + (V_rest - V_sag) * (exp(-t_sag / (R_iso * C_h)) - exp(-(t_sag + t_off) / (R_iso * C_h))) / (1 - exp(-(t_sag + t_off) / (R_iso * C_h)))',
  compute: ({ V_sag, I_log, R_iso, V_rest, t_sag, C_h, t_off }) => {
    const tau = R_iso * C_h
    // What is left of a step after the sag, after the time between, and after both: 1 - e^(-x), whose digits a slow rail must not lose.
    const left = Math.exp(-t_sag / tau) * -Math.expm1(-t_off / tau)
    return V_sag - I_log * R_iso + ((V_rest - V_sag) * left) / -Math.expm1(-(t_sag + t_off) / tau)
  },
  source: 'first-order steps, there and back, until each is as the one before',
})

/** Capacitor that holds a rail behind a diode over a sag, nothing lost of it. Pitfall J05. */
export const holdUpNeeded = /*#__PURE__*/ formula({
  symbol: 'C_need',
  quantity: 'hold-up capacitance needed',
  unit: 'F',
  inputs: { I_log, t_sag, V_log, V_least: ['V', 1, 2.9] },
  expression: 'I_log * t_sag / (V_log - V_least)',
  compute: ({ I_log, t_sag, V_log, V_least }) => (I_log * t_sag) / (V_log - V_least),
  source: discharge,
})

/** How far a pin is driven beyond its own rail and the clamp's threshold, from a rail that stands higher. Pitfalls J06, K08. */
export const pinOverdrive = /*#__PURE__*/ formula({
  symbol: 'V_over',
  quantity: 'pin above its rail and clamp',
  unit: 'V',
  inputs: { V_pin: ['V', 2, 15], V_log, V_clamp: ['V', 0, 0.7] },
  expression: 'V_pin - V_log - V_clamp',
  compute: ({ V_pin, V_log, V_clamp }) => V_pin - V_log - V_clamp,
  source: "Kirchhoff's voltage law",
})

/** Current into a pin's clamp: what a divider leaks whose lower end is switched off. Pitfalls J06, K08. */
export const clampCurrent = /*#__PURE__*/ formula({
  symbol: 'I_clamp',
  quantity: "current into the pin's clamp",
  unit: 'A',
  inputs: { V_over: ['V', 0, 12], R_ser: ['ohm', 100, 1e7] },
  expression: 'V_over / R_ser',
  compute: ({ V_over, R_ser }) => V_over / R_ser,
  source: "Ohm's law",
})
