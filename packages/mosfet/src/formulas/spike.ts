import type { InputRange, Values } from '@ohmward/budget'
import { at, formula } from '@ohmward/budget/formula'

const V_oc: InputRange = ['V', 1, 20]
const I_max: InputRange = ['A', 0.01, 100]
const n: InputRange = ['1', 1, 8]
const L_w: InputRange = ['H', 0, 1e-5]
const Q_gs2: InputRange = ['C', 1e-10, 1e-6]
const V_off: InputRange = ['V', 0, 0.5]
const V_min: InputRange = ['V', 0.01, 0.1]
const R_goff: InputRange = ['ohm', 0.5, 1e7]
const I_g: InputRange = ['A', 1e-6, 10]
const tail: InputRange = ['V', 0, 20]
const C_rss: InputRange = ['F', 0, 1e-8]
const head: InputRange = ['V', 20, 50]

/** Gate current, switching off, as the gate reaches the threshold and the current ends. */
export const thresholdCurrent = /*#__PURE__*/ formula({
  symbol: 'I_gth',
  quantity: 'gate current at the threshold, switching off',
  unit: 'A',
  inputs: { V_th: ['V', 0.3, 3], V_off, V_min, R_goff },
  expression: 'max(V_th - V_off, V_min) / R_goff',
  compute: ({ V_th, V_off, V_min, R_goff }) => Math.max(V_th - V_off, V_min) / R_goff,
  source: 'Ohm; floor of the model',
  smooth: false,
})

/** The same where a transistor has no more than `I_lim` for it. */
export const limitedThresholdCurrent = /*#__PURE__*/ formula({
  symbol: 'I_gth',
  quantity: 'gate current at the threshold, switching off',
  unit: 'A',
  inputs: { V_th: ['V', 0.3, 3], V_off, V_min, R_goff, I_lim: ['A', 1e-4, 1] },
  expression: 'min(max(V_th - V_off, V_min) / R_goff, I_lim)',
  compute: ({ V_th, V_off, V_min, R_goff, I_lim }) => Math.min(Math.max(V_th - V_off, V_min) / R_goff, I_lim),
  source: 'Ohm; collector current at the smallest gain; floor of the model',
  smooth: false,
})

/** Gate current, switching off, on the plateau, where the current begins to fall. */
export const plateauCurrent = /*#__PURE__*/ at(
  thresholdCurrent,
  'I_gpl',
  (x: Values<'V_pl' | 'V_off' | 'V_min' | 'R_goff'>) => ({
    V_th: x.V_pl,
    V_off: x.V_off,
    V_min: x.V_min,
    R_goff: x.R_goff,
  }),
  { quantity: 'gate current on the plateau, switching off' },
)

/** The same where a transistor has no more than `I_lim` for it. */
export const limitedPlateauCurrent = /*#__PURE__*/ at(
  limitedThresholdCurrent,
  'I_gpl',
  (x: Values<'V_pl' | 'V_off' | 'V_min' | 'R_goff' | 'I_lim'>) => ({
    V_th: x.V_pl,
    V_off: x.V_off,
    V_min: x.V_min,
    R_goff: x.R_goff,
    I_lim: x.I_lim,
  }),
  { quantity: 'gate current on the plateau, switching off' },
)

/**
 * What the wiring makes of the whole current falling as fast as the gate current of the plateau lets it. That moves the
 * channel by way of its charge from threshold to plateau, and the drain by way of the reverse capacitance; the latter
 * falls with the voltage, so the current falls fastest at the highest voltage, and the capacitance there counts.
 */
export const spikeHead = /*#__PURE__*/ formula({
  symbol: 'V_head',
  quantity: 'inductive voltage as the current starts to fall',
  unit: 'V',
  inputs: { L_w, I_max, I_gpl: I_g, n, Q_gs2, V_oc, C_rss },
  expression: 'L_w * I_max * I_gpl / (n * (Q_gs2 + V_oc * C_rss))',
  compute: ({ L_w, I_max, I_gpl, n, Q_gs2, V_oc, C_rss }) => (L_w * I_max * I_gpl) / (n * (Q_gs2 + V_oc * C_rss)),
  source: 'law of induction; gate and drain charge of a linear channel in a resistive load, largest slope',
})

/**
 * The same as the current ends, with the gate current of the threshold; the drain lags behind the gate by what the reverse
 * capacitance takes of the spike.
 */
export const spikeTail = /*#__PURE__*/ formula({
  symbol: 'V_tail',
  quantity: 'inductive voltage at the end of the edge',
  unit: 'V',
  inputs: { V_head: tail, I_gth: ['A', 1e-6, 1], I_gpl: ['A', 1, 10], C_rss, Q_gs2, V_oc },
  expression: 'V_head * (I_gth + (I_gpl - I_gth) * min(C_rss * V_head / (Q_gs2 + V_oc * C_rss), 1)) / I_gpl',
  compute: ({ V_head, I_gth, I_gpl, C_rss, Q_gs2, V_oc }) =>
    (V_head * (I_gth + (I_gpl - I_gth) * Math.min((C_rss * V_head) / (Q_gs2 + V_oc * C_rss), 1))) / I_gpl,
  source: 'in proportion to the gate current; lag of one pole',
  smooth: false,
})

/**
 * The same with a clamped inductive load: the drain voltage rises first, at full current, and the gate current empties
 * the gate from plateau to threshold alone.
 */
export const inductiveSpikeHead = /*#__PURE__*/ formula({
  symbol: 'V_head',
  quantity: 'inductive voltage as the current starts to fall',
  unit: 'V',
  inputs: { L_w, I_max, I_gpl: I_g, n, Q_gs2 },
  expression: 'L_w * I_max * I_gpl / (n * Q_gs2)',
  compute: ({ L_w, I_max, I_gpl, n, Q_gs2 }) => (L_w * I_max * I_gpl) / (n * Q_gs2),
  source: 'law of induction, current falling from plateau to threshold',
})

/** Highest drain-source voltage at turn-off: at the end of the edge, or where the current begins to fall. Pitfall H12. */
export const spikePeak = /*#__PURE__*/ formula({
  symbol: 'V_pk',
  quantity: 'drain-source voltage at turn-off',
  unit: 'V',
  inputs: { V_oc, V_tail: tail, V_head: head },
  expression: 'max(V_oc + V_tail, V_head)',
  compute: ({ V_oc, V_tail, V_head }) => Math.max(V_oc + V_tail, V_head),
  source: 'Kirchhoff; linear between both',
  smooth: false,
})

/** The same with a clamped inductive load, which holds the drain above the supply by its diode. */
export const inductiveSpikePeak = /*#__PURE__*/ formula({
  symbol: 'V_pk',
  quantity: 'drain-source voltage at turn-off',
  unit: 'V',
  inputs: { V_oc, V_F: ['V', 0, 2], V_head: head },
  expression: 'V_oc + V_F + V_head',
  compute: ({ V_oc, V_F, V_head }) => V_oc + V_F + V_head,
  source: 'Kirchhoff',
})

/** Share of the current at which the product with the drain voltage is largest. */
export const peakShare = /*#__PURE__*/ formula({
  symbol: 'a_pk',
  quantity: 'share of the current at the peak power',
  unit: '1',
  inputs: { V_oc, V_tail: tail, V_head: ['V', 0, 1], V_min },
  expression: 'min((V_oc + V_tail) / (2 * max(V_oc - V_head + V_tail, V_min)), 1)',
  compute: ({ V_oc, V_tail, V_head, V_min }) =>
    Math.min((V_oc + V_tail) / (2 * Math.max(V_oc - V_head + V_tail, V_min)), 1),
  source: 'largest value of a parabola',
  smooth: false,
})

/** Largest power of one device in an edge: without wiring, half the voltage at half the current. Pitfall H10. */
export const edgePeakPower = /*#__PURE__*/ formula({
  symbol: 'P_pk',
  quantity: 'peak power in an edge, of one device',
  unit: 'W',
  inputs: { V_oc, I_max, n, V_tail: tail, V_head: tail, a_pk: ['1', 0.5, 1] },
  expression: 'I_max / n * a_pk * (V_oc + V_tail - a_pk * (V_oc + V_tail - V_head))',
  compute: ({ V_oc, I_max, n, V_tail, V_head, a_pk }) =>
    (I_max / n) * a_pk * (V_oc + V_tail - a_pk * (V_oc + V_tail - V_head)),
  source: 'product of voltage and current, straight in the current from the start of the edge to its end',
})

/** The same for a clamped inductive load: full current at the highest voltage. */
export const inductiveEdgePeakPower = /*#__PURE__*/ formula({
  symbol: 'P_pk',
  quantity: 'peak power in an edge, of one device',
  unit: 'W',
  inputs: { V_pk: ['V', 1, 60], I_max, n },
  expression: 'V_pk * I_max / n',
  compute: ({ V_pk, I_max, n }) => (V_pk * I_max) / n,
  source: 'full voltage at full current',
})

/** Peak power where one of several devices, that with the lowest threshold, bears an edge alone. */
export const aloneEdgePower = /*#__PURE__*/ formula({
  symbol: 'P_alone',
  quantity: 'peak power in an edge, one device alone',
  unit: 'W',
  inputs: { n, P_pk: ['W', 0.01, 1000] },
  expression: 'n * P_pk',
  compute: ({ n, P_pk }) => n * P_pk,
  source: 'the whole current through one',
})
