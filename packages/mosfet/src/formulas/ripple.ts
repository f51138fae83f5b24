import type { InputRange, Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

const D_on: InputRange = ['1', 0, 1]
const impedance: InputRange = ['K/W', 0.01, 500]

/** Length of one pulse. A steady switch stays on: below `f_min` a period counts as one of `f_min`. */
export const onTime = /*#__PURE__*/ formula({
  symbol: 't_on',
  quantity: 'length of one pulse',
  unit: 's',
  inputs: { D_on, f: ['Hz', 0, 1e6], f_min: ['Hz', 1e-6, 1e-5] },
  expression: 'D_on / max(f, f_min)',
  compute: ({ D_on, f, f_min }) => D_on / Math.max(f, f_min),
  source: 'definition of the duty; floor of the model',
  smooth: false,
})

/**
 * Thermal impedance of one pulse on your board: that of the curve, with the spread of the board. A pulse never heats more
 * than a load that stays on.
 */
export const pulseImpedance = /*#__PURE__*/ formula({
  symbol: 'Z_on',
  quantity: 'transient thermal impedance of one pulse, on your board',
  unit: 'K/W',
  inputs: { R_thDC: ['K/W', 1, 500], Z_p: impedance, Z_end: ['K/W', 1, 500] },
  expression: 'R_thDC * min(Z_p / Z_end, 1)',
  compute: ({ R_thDC, Z_p, Z_end }) => R_thDC * Math.min(Z_p / Z_end, 1),
  source: 'scaling of a curve that was taken on another board',
  smooth: false,
})

/** The same where no bursts change the thermal resistance. */
export const steadyPulseImpedance = /*#__PURE__*/ at(
  pulseImpedance,
  'Z_on',
  (x: Values<'R_thJA' | 'Z_p' | 'Z_end'>) => ({ R_thDC: x.R_thJA, Z_p: x.Z_p, Z_end: x.Z_end }),
)

/** Conduction loss while the switch is on: the same as that of a duty of 1. */
export const pulsePower = /*#__PURE__*/ formula({
  symbol: 'P_on',
  quantity: 'conduction loss of one device, while on',
  unit: 'W',
  inputs: { I: ['A', 0.01, 100], n: ['1', 1, 8], R_hot: ['ohm', 1e-4, 1] },
  expression: '(I / n)^2 * R_hot',
  compute: ({ I, n, R_hot }) => (I / n) ** 2 * R_hot,
  source: 'Joule',
})

/** The same with the junction at its limit. */
export const limitPulsePower = /*#__PURE__*/ at(
  pulsePower,
  'P_ontop',
  (x: Values<'I_top' | 'n' | 'R_top'>) => ({ I: x.I_top, n: x.n, R_hot: x.R_top }),
  { quantity: 'conduction loss while on, junction at its limit' },
)

/**
 * How far the junction stands above its mean at the end of a pulse. Pulses add; with an impedance that rises ever more
 * slowly, those before the last heat no more than their mean does from the last one's length on.
 */
export const ripple = /*#__PURE__*/ formula({
  symbol: 'T_rip',
  quantity: 'junction above its mean at the end of a pulse',
  unit: 'K',
  inputs: { D_on, Z_on: impedance, P_on: ['W', 0.001, 100] },
  expression: '(1 - D_on) * Z_on * P_on',
  compute: ({ D_on, Z_on, P_on }) => (1 - D_on) * Z_on * P_on,
  source: 'superposition of equal pulses, bound by D R_th + (1 - D) Z_th(t_on) for a concave Z_th; plain arithmetic',
})

/** The same with the junction at its limit. */
export const limitRipple = /*#__PURE__*/ at(
  ripple,
  'T_riptop',
  (x: Values<'D_on' | 'Z_on' | 'P_ontop'>) => ({ D_on: x.D_on, Z_on: x.Z_on, P_on: x.P_ontop }),
  { quantity: 'junction above its mean at the end of a pulse, at its limit' },
)

/** Length of a pulse of the peak power that holds what edges and wiring leave in one period: none where there are no edges. */
export const edgePulse = /*#__PURE__*/ formula({
  symbol: 't_pk',
  quantity: 'length of a pulse of the peak power with the energy of both edges',
  unit: 's',
  inputs: {
    P_edge: ['W', 0, 100],
    P_wire: ['W', 0, 10],
    f_edge: ['Hz', 0, 1e6],
    f_min: ['Hz', 1e-6, 1e-5],
    P_pk: ['W', 0.01, 1000],
  },
  expression: '(P_edge + P_wire) / (max(f_edge, f_min) * P_pk)',
  compute: ({ P_edge, P_wire, f_edge, f_min, P_pk }) => (P_edge + P_wire) / (Math.max(f_edge, f_min) * P_pk),
  source: 'energy = power times time; floor of the model',
  smooth: false,
})

/** The same impedance for the edges. */
export const edgeImpedance = /*#__PURE__*/ at(
  pulseImpedance,
  'Z_edge',
  (x: Values<'R_thDC' | 'Z_pk' | 'Z_end'>) => ({ R_thDC: x.R_thDC, Z_p: x.Z_pk, Z_end: x.Z_end }),
  { quantity: 'transient thermal impedance of the edges, on your board' },
)

/** The same where no bursts change the thermal resistance. */
export const steadyEdgeImpedance = /*#__PURE__*/ at(
  pulseImpedance,
  'Z_edge',
  (x: Values<'R_thJA' | 'Z_pk' | 'Z_end'>) => ({ R_thDC: x.R_thJA, Z_p: x.Z_pk, Z_end: x.Z_end }),
  { quantity: 'transient thermal impedance of the edges, on your board' },
)

/** The same impedance for the conduction time when the cell makes contact. */
export const contactImpedance = /*#__PURE__*/ at(
  pulseImpedance,
  'Z_con',
  (x: Values<'R_thDC' | 'Z_pc' | 'Z_end'>) => ({ R_thDC: x.R_thDC, Z_p: x.Z_pc, Z_end: x.Z_end }),
  { quantity: 'transient thermal impedance of the contact, on your board' },
)

/** The same where no bursts change the thermal resistance. */
export const steadyContactImpedance = /*#__PURE__*/ at(
  pulseImpedance,
  'Z_con',
  (x: Values<'R_thJA' | 'Z_pc' | 'Z_end'>) => ({ R_thDC: x.R_thJA, Z_p: x.Z_pc, Z_end: x.Z_end }),
  { quantity: 'transient thermal impedance of the contact, on your board' },
)

/** What the edges of one period add at their end: of all pulses with their energy and peak, the latest block heats most. */
export const edgeRise = /*#__PURE__*/ formula({
  symbol: 'T_edge',
  quantity: 'rise of the junction in the edges of one period',
  unit: 'K',
  inputs: { Z_edge: ['K/W', 0, 10], P_pk: ['W', 0.01, 1000] },
  expression: 'Z_edge * P_pk',
  compute: ({ Z_edge, P_pk }) => Z_edge * P_pk,
  source: 'superposition; the impedance rises ever more slowly',
})

/**
 * Frequency from which the ripple is less than a fifth of the mean rise, where a pulse heats with the root of its length
 * and would reach the end after `t_th`.
 */
export const meanFrequency = /*#__PURE__*/ formula({
  symbol: 'f_mean',
  quantity: 'frequency above which the mean loss sets the junction temperature',
  unit: 'Hz',
  inputs: { D: ['1', 0.01, 1], t_th: ['s', 0.01, 100] },
  expression: '25 * (1 - D)^2 / (D * t_th)',
  compute: ({ D, t_th }) => (25 * (1 - D) ** 2) / (D * t_th),
  source: '(1 - D) sqrt(D / (f t_th)) / D = 1/5; heat flow into a half-space: with the root of time',
})
