import type { InputRange, Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

const R_p: InputRange = ['ohm', 100, 1e7]
const leakage: InputRange = ['A', 0, 1e-6]

/** Lowest threshold when hot: it falls by a few millivolts for each kelvin. */
export const hotThreshold = /*#__PURE__*/ formula({
  symbol: 'V_thhot',
  quantity: 'threshold, hot',
  unit: 'V',
  inputs: { V_th: ['V', 1, 4], k_th: ['V/K', 0, 4e-3], T_hot: ['degC', 30, 125], T_25: ['degC', 20, 30] },
  expression: 'V_th - k_th * (T_hot - T_25)',
  compute: ({ V_th, k_th, T_hot, T_25 }) => V_th - k_th * (T_hot - T_25),
  source: 'data sheet: threshold against junction temperature',
})

/** Gate level while the controller resets and its pin is weakly pulled towards on. Pitfall H08. */
export const resetLevel = /*#__PURE__*/ formula({
  symbol: 'V_reset',
  quantity: 'gate-source voltage during reset',
  unit: 'V',
  inputs: { V_weak: ['V', 0, 6], R_weak: ['ohm', 1e4, 1e6], R_p, I_leak: leakage },
  expression: 'V_weak * R_p / (R_weak + R_p) + I_leak * R_weak * R_p / (R_weak + R_p)',
  compute: ({ V_weak, R_weak, R_p, I_leak }) =>
    (V_weak * R_p) / (R_weak + R_p) + (I_leak * R_weak * R_p) / (R_weak + R_p),
  source: 'Kirchhoff',
})

/** Gate level that leakage makes across the resistor that holds the gate off. */
export const leakageLevel = /*#__PURE__*/ formula({
  symbol: 'V_hold0',
  quantity: 'gate-source voltage from leakage',
  unit: 'V',
  inputs: { I_leak: leakage, R_p },
  expression: 'I_leak * R_p',
  compute: ({ I_leak, R_p }) => I_leak * R_p,
  source: 'Ohm',
})

/** What stays between gate and source of a P-channel transistor whose pin reaches only `V_high`. */
export const pinOffLevel = /*#__PURE__*/ formula({
  symbol: 'V_off',
  quantity: 'gate-source voltage, switched off',
  unit: 'V',
  inputs: { V_oc: ['V', 3, 20], V_high: ['V', 1, 2.5] },
  expression: 'V_oc - V_high',
  compute: ({ V_oc, V_high }) => V_oc - V_high,
  source: 'Kirchhoff, rail at rest',
})

/** Base voltage of the inverting transistor while the controller resets and its pin is pulled up weakly. */
export const resetBase = /*#__PURE__*/ formula({
  symbol: 'V_base',
  quantity: 'base voltage during reset',
  unit: 'V',
  inputs: {
    V_weak: ['V', 0, 6],
    R_be: ['ohm', 100, 1e6],
    R_weak: ['ohm', 1e4, 1e6],
    R_b: ['ohm', 10, 1e6],
    I_leak: leakage,
  },
  expression: 'V_weak * R_be / (R_weak + R_b + R_be) + I_leak * R_be',
  compute: ({ V_weak, R_be, R_weak, R_b, I_leak }) => (V_weak * R_be) / (R_weak + R_b + R_be) + I_leak * R_be,
  source: 'Kirchhoff',
})

/** Gate level that a fast edge of the drain couples through the reverse capacitance. */
export const coupledLevel = /*#__PURE__*/ formula({
  symbol: 'V_cpl',
  quantity: 'gate-source voltage coupled by a drain edge',
  unit: 'V',
  inputs: {
    R_goff: ['ohm', 1, 1e7],
    C_gd: ['F', 1e-12, 1e-9],
    V_step: ['V', 0.5, 60],
    t_step: ['s', 1e-8, 1e-3],
    C_iss: ['F', 1e-10, 1e-8],
  },
  expression: 'R_goff * C_gd * V_step / t_step * (1 - exp(-t_step / (R_goff * C_iss)))',
  compute: ({ R_goff, C_gd, V_step, t_step, C_iss }) =>
    ((R_goff * C_gd * V_step) / t_step) * -Math.expm1(-t_step / (R_goff * C_iss)),
  source: 'ramp through C_gd into R beside C_iss = C_gs + C_gd',
})

const level: InputRange = ['V', 1, 60]
const source = 'Kirchhoff'

/** What holds the gate while nothing drives it: a resistor at the gate. */
export const holdingAtGate = /*#__PURE__*/ formula({
  symbol: 'R_hold',
  quantity: 'resistance that holds the gate off',
  unit: 'ohm',
  inputs: { R_p },
  expression: 'R_p',
  compute: ({ R_p }) => R_p,
  source: 'the resistor alone',
})

/** The same where it sits on the drive’s side of the gate resistor. */
export const holdingAtDrive = /*#__PURE__*/ formula({
  symbol: 'R_hold',
  quantity: 'resistance that holds the gate off',
  unit: 'ohm',
  inputs: { R_p, R_g: ['ohm', 0, 1e4] },
  expression: 'R_p + R_g',
  compute: ({ R_p, R_g }) => R_p + R_g,
  source: 'series connection',
})

/** Gate level from leakage through what holds it. */
export const heldLevel = /*#__PURE__*/ at(leakageLevel, 'V_hold0', (x: Values<'I_leak' | 'R_hold'>) => ({
  I_leak: x.I_leak,
  R_p: x.R_hold,
}))

/** Nothing holds the gate during reset: it may stand anywhere in its supply. */
export const floatingGate = /*#__PURE__*/ formula({
  symbol: 'V_reset',
  quantity: 'gate-source voltage during reset',
  unit: 'V',
  inputs: { V_GShigh: level },
  expression: 'V_GShigh',
  compute: ({ V_GShigh }) => V_GShigh,
  source: 'nothing holds it',
})

/** The gate during reset where the pin floats on its leakage. */
export const heldGate = /*#__PURE__*/ at(
  leakageLevel,
  'V_reset',
  (x: Values<'I_leak' | 'R_hold'>) => ({ I_leak: x.I_leak, R_p: x.R_hold }),
  { quantity: 'gate-source voltage during reset' },
)

/** The gate during reset where the controller pulls weakly towards the level that switches on. */
export const pulledGate = /*#__PURE__*/ at(
  resetLevel,
  'V_reset',
  (x: Values<'V_GShigh' | 'R_weak' | 'R_p' | 'I_leak'>) => ({
    V_weak: x.V_GShigh,
    R_weak: x.R_weak,
    R_p: x.R_p,
    I_leak: x.I_leak,
  }),
)

/** A base that nothing holds may be lifted by the pin’s leakage alone. */
export const floatingBase = /*#__PURE__*/ formula({
  symbol: 'V_base',
  quantity: 'base voltage during reset',
  unit: 'V',
  inputs: { V_GShigh: level },
  expression: 'V_GShigh',
  compute: ({ V_GShigh }) => V_GShigh,
  source: 'nothing holds it',
})

/** A base with a resistor to the emitter, the pin floating on its leakage. */
export const heldBase = /*#__PURE__*/ formula({
  symbol: 'V_base',
  quantity: 'base voltage during reset',
  unit: 'V',
  inputs: { I_leak: ['A', 0, 1e-6], R_be: ['ohm', 100, 1e6] },
  expression: 'I_leak * R_be',
  compute: ({ I_leak, R_be }) => I_leak * R_be,
  source: 'Ohm',
})

/** The same where the controller pulls weakly through the base resistor. */
export const pulledBase = /*#__PURE__*/ at(
  resetBase,
  'V_base',
  (x: Values<'V_GShigh' | 'R_be' | 'R_weak' | 'R_b' | 'I_leak'>) => ({
    V_weak: x.V_GShigh,
    R_be: x.R_be,
    R_weak: x.R_weak,
    R_b: x.R_b,
    I_leak: x.I_leak,
  }),
)

/** The same where the controller lives on another supply than the drive. */
export const pulledBaseByController = /*#__PURE__*/ at(
  resetBase,
  'V_base',
  (x: Values<'V_weak' | 'R_be' | 'R_weak' | 'R_b' | 'I_leak'>) => x,
)

/** The base of a follower, held to the level that switches off: no higher than its supply. */
export const heldFollowerBase = /*#__PURE__*/ formula({
  symbol: 'V_base',
  quantity: 'base voltage during reset',
  unit: 'V',
  inputs: { I_leak: ['A', 0, 1e-6], R_be: ['ohm', 100, 1e6], V_GShigh: level },
  expression: 'min(I_leak * R_be, V_GShigh)',
  compute: ({ I_leak, R_be, V_GShigh }) => Math.min(I_leak * R_be, V_GShigh),
  source: 'Ohm, inside the supply',
  smooth: false,
})

/** The same where the controller pulls weakly towards the level that switches on. */
export const pulledFollowerBase = /*#__PURE__*/ formula({
  symbol: 'V_base',
  quantity: 'base voltage during reset',
  unit: 'V',
  inputs: { V_GShigh: level, R_be: ['ohm', 100, 1e6], R_weak: ['ohm', 1e4, 1e6], I_leak: ['A', 0, 1e-6] },
  expression: 'min(V_GShigh * R_be / (R_weak + R_be) + I_leak * R_be, V_GShigh)',
  compute: ({ V_GShigh, R_be, R_weak, I_leak }) =>
    Math.min((V_GShigh * R_be) / (R_weak + R_be) + I_leak * R_be, V_GShigh),
  source: 'Kirchhoff, inside the supply',
  smooth: false,
})

/** A follower passes on what stands at its base, however weakly that is pulled: the resistor at the gate is no match. */
export const followedReset = /*#__PURE__*/ formula({
  symbol: 'V_reset',
  quantity: 'gate-source voltage during reset',
  unit: 'V',
  inputs: { V_base: ['V', 0, 6], V_BE: ['V', 0.6, 1], V_hold0: ['V', 0, 5] },
  expression: 'max(V_base - V_BE, V_hold0)',
  compute: ({ V_base, V_BE, V_hold0 }) => Math.max(V_base - V_BE, V_hold0),
  source,
  smooth: false,
})

/** Gate level, switched off, where leakage through the holding resistor adds to what the drive leaves. */
export const leakingOffLevel = /*#__PURE__*/ formula({
  symbol: 'V_rest',
  quantity: 'gate-source voltage, switched off, with leakage',
  unit: 'V',
  inputs: { V_off: ['V', 0, 2], V_hold0: ['V', 0, 5] },
  expression: 'V_off + V_hold0',
  compute: ({ V_off, V_hold0 }) => V_off + V_hold0,
  source,
})
