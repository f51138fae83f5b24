import type { InputRange, Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'
import { conductionLoss, pulsedCurrent } from './conduction.js'

const charge: InputRange = ['C', 1e-10, 1e-6]
const time: InputRange = ['s', 0, 1e-3]
const n: InputRange = ['1', 1, 8]
const V_min: InputRange = ['V', 0.01, 0.1]
const V_off: InputRange = ['V', 0, 0.5]
const V_pl: InputRange = ['V', 1, 6]
const V_th: InputRange = ['V', 0.3, 3]
const R_goff: InputRange = ['ohm', 0.5, 1e7]
const R_gon: InputRange = ['ohm', 0.5, 1e5]
const I_lim: InputRange = ['A', 1e-4, 1]
const mean = 'the mean of an exponential current is above the root of first times last'

/** Gate charge up to the threshold, before anything conducts. */
export const chargeToThreshold = /*#__PURE__*/ formula({
  symbol: 'Q_gs1',
  quantity: 'gate charge up to the threshold',
  unit: 'C',
  inputs: { Q_gs: charge, V_th, V_pl },
  expression: 'Q_gs * V_th / V_pl',
  compute: ({ Q_gs, V_th, V_pl }) => (Q_gs * V_th) / V_pl,
  source: 'constant capacitance below the plateau of the gate charge curve',
})

/** Gate current up to the threshold, at least. */
export const delayCurrentOn = /*#__PURE__*/ formula({
  symbol: 'I_gdon',
  quantity: 'gate current up to the threshold',
  unit: 'A',
  inputs: { V_GS: ['V', 1, 20], V_th, V_min, R_gon },
  expression: 'sqrt(max(V_GS, V_min) * max(V_GS - V_th, V_min)) / R_gon',
  compute: ({ V_GS, V_th, V_min, R_gon }) => Math.sqrt(Math.max(V_GS, V_min) * Math.max(V_GS - V_th, V_min)) / R_gon,
  source: mean,
  smooth: false,
})

/** The same where a transistor has no more than `I_lim` for it. */
export const limitedDelayCurrentOn = /*#__PURE__*/ formula({
  symbol: 'I_gdon',
  quantity: 'gate current up to the threshold',
  unit: 'A',
  inputs: { V_GS: ['V', 1, 20], V_th, V_min, R_gon, I_lim },
  expression: 'min(sqrt(max(V_GS, V_min) * max(V_GS - V_th, V_min)) / R_gon, I_lim)',
  compute: ({ V_GS, V_th, V_min, R_gon, I_lim }) =>
    Math.min(Math.sqrt(Math.max(V_GS, V_min) * Math.max(V_GS - V_th, V_min)) / R_gon, I_lim),
  source: mean,
  smooth: false,
})

/** From the drive to the start of the edge, switching on. */
export const delayOn = /*#__PURE__*/ formula({
  symbol: 't_don',
  quantity: 'delay when switching on',
  unit: 's',
  inputs: { n, Q_gs1: charge, I_gdon: ['A', 1e-6, 10] },
  expression: 'n * Q_gs1 / I_gdon',
  compute: ({ n, Q_gs1, I_gdon }) => (n * Q_gs1) / I_gdon,
  source: 'charge = current times time',
})

/** The same where a saturated transistor that held the gate low lets go later, by its storage time. */
export const storedDelayOn = /*#__PURE__*/ formula({
  symbol: 't_don',
  quantity: 'delay when switching on',
  unit: 's',
  inputs: { t_sto: time, n, Q_gs1: charge, I_gdon: ['A', 1e-6, 10] },
  expression: 't_sto + n * Q_gs1 / I_gdon',
  compute: ({ t_sto, n, Q_gs1, I_gdon }) => t_sto + (n * Q_gs1) / I_gdon,
  source: 'storage, then charge = current times time',
})

/** From the drive to the end of the edge, switching on. */
export const wholeOn = /*#__PURE__*/ formula({
  symbol: 't_ton',
  quantity: 'turn-on delay and edge',
  unit: 's',
  inputs: { t_don: time, t_r: time },
  expression: 't_don + t_r',
  compute: ({ t_don, t_r }) => t_don + t_r,
  source: 'sum',
})

/** Gate charge above the plateau: it leaves first, and the drain waits. Never less than the input capacitance holds. */
export const chargeAbovePlateau = /*#__PURE__*/ formula({
  symbol: 'Q_on',
  quantity: 'gate charge above the plateau',
  unit: 'C',
  inputs: {
    Q_g: charge,
    Q_gs: charge,
    Q_gd: charge,
    C_iss: ['F', 1e-11, 1e-7],
    V_GShigh: ['V', 1, 20],
    V_pl,
    V_min,
  },
  expression: 'max(Q_g - Q_gs - Q_gd, C_iss * max(V_GShigh - V_pl, V_min))',
  compute: ({ Q_g, Q_gs, Q_gd, C_iss, V_GShigh, V_pl, V_min }) =>
    Math.max(Q_g - Q_gs - Q_gd, C_iss * Math.max(V_GShigh - V_pl, V_min)),
  source: 'regions of the gate charge curve',
  smooth: false,
})

/** Gate current down to the plateau, at least. */
export const delayCurrentOff = /*#__PURE__*/ formula({
  symbol: 'I_gdoff',
  quantity: 'gate current down to the plateau',
  unit: 'A',
  inputs: { V_GShigh: ['V', 1, 20], V_off, V_pl, V_min, R_goff },
  expression: 'sqrt(max(V_GShigh - V_off, V_min) * max(V_pl - V_off, V_min)) / R_goff',
  compute: ({ V_GShigh, V_off, V_pl, V_min, R_goff }) =>
    Math.sqrt(Math.max(V_GShigh - V_off, V_min) * Math.max(V_pl - V_off, V_min)) / R_goff,
  source: mean,
  smooth: false,
})

/** The same where a transistor has no more than `I_lim` for it. */
export const limitedDelayCurrentOff = /*#__PURE__*/ formula({
  symbol: 'I_gdoff',
  quantity: 'gate current down to the plateau',
  unit: 'A',
  inputs: { V_GShigh: ['V', 1, 20], V_off, V_pl, V_min, R_goff, I_lim },
  expression: 'min(sqrt(max(V_GShigh - V_off, V_min) * max(V_pl - V_off, V_min)) / R_goff, I_lim)',
  compute: ({ V_GShigh, V_off, V_pl, V_min, R_goff, I_lim }) =>
    Math.min(Math.sqrt(Math.max(V_GShigh - V_off, V_min) * Math.max(V_pl - V_off, V_min)) / R_goff, I_lim),
  source: mean,
  smooth: false,
})

/** From the drive to the start of the edge, switching off. */
export const delayOff = /*#__PURE__*/ formula({
  symbol: 't_doff',
  quantity: 'delay when switching off',
  unit: 's',
  inputs: { n, Q_on: charge, I_gdoff: ['A', 1e-6, 10] },
  expression: 'n * Q_on / I_gdoff',
  compute: ({ n, Q_on, I_gdoff }) => (n * Q_on) / I_gdoff,
  source: 'charge = current times time',
})

/** The same where a saturated transistor that held the gate on lets go later, by its storage time. */
export const storedDelayOff = /*#__PURE__*/ formula({
  symbol: 't_doff',
  quantity: 'delay when switching off',
  unit: 's',
  inputs: { t_sto: time, n, Q_on: charge, I_gdoff: ['A', 1e-6, 10] },
  expression: 't_sto + n * Q_on / I_gdoff',
  compute: ({ t_sto, n, Q_on, I_gdoff }) => t_sto + (n * Q_on) / I_gdoff,
  source: 'storage, then charge = current times time',
})

/** How much longer the gate takes for what the reverse capacitance draws while the drain stands above the supply. */
export const spikeTime = /*#__PURE__*/ formula({
  symbol: 't_spk',
  quantity: 'time that the spike adds when switching off',
  unit: 's',
  inputs: { n, C_rss: ['F', 0, 1e-8], V_pk: ['V', 20, 60], V_oc: ['V', 1, 20], I_goff: ['A', 1e-6, 10] },
  expression: 'n * C_rss * (V_pk - V_oc) / I_goff',
  compute: ({ n, C_rss, V_pk, V_oc, I_goff }) => (n * C_rss * (V_pk - V_oc)) / I_goff,
  source: 'charge = current times time',
})

/** From the drive to the end of the edge, switching off. */
export const wholeOff = /*#__PURE__*/ formula({
  symbol: 't_toff',
  quantity: 'turn-off delay and edge',
  unit: 's',
  inputs: { t_doff: time, t_f: time, t_spk: time },
  expression: 't_doff + t_f + t_spk',
  compute: ({ t_doff, t_f, t_spk }) => t_doff + t_f + t_spk,
  source: 'sum',
})

/** Duty in which it really conducts: the delay of switching off lengthens each pulse, that of switching on isn't relied on. */
export const realDuty = /*#__PURE__*/ formula({
  symbol: 'D_on',
  quantity: 'conduction duty',
  unit: '1',
  inputs: { D: ['1', 0, 1], f_edge: ['Hz', 0, 1e6], t_doff: time },
  expression: 'min(D + f_edge * t_doff, 1)',
  compute: ({ D, f_edge, t_doff }) => Math.min(D + f_edge * t_doff, 1),
  source: 'sum, inside a period',
  smooth: false,
})

/** Root mean square of the load current with the conduction duty. */
export const realPulsedCurrent = /*#__PURE__*/ at(pulsedCurrent, 'I_rms', (x: Values<'I' | 'D_on'>) => ({
  I: x.I,
  D: x.D_on,
}))

/** Conduction loss with the conduction duty. */
export const realConductionLoss = /*#__PURE__*/ at(
  conductionLoss,
  'P_cond',
  (x: Values<'I' | 'n' | 'D_on' | 'R_hot'>) => ({ I: x.I, n: x.n, D: x.D_on, R_hot: x.R_hot }),
)
