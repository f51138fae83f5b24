import { formula } from '@ohmward/budget/formula'

const ratio = 'converter with the rail as its reference, measuring a known voltage'

/** The rail, read by converting the internal reference against it. `code_bg` with its half count. Pitfall D03. */
export const railFromReference = /*#__PURE__*/ formula({
  symbol: 'V_rail',
  quantity: 'rail read against the internal reference',
  unit: 'V',
  inputs: { V_bg: ['V', 0.5, 3], N_bits: ['1', 1, 32], code_bg: ['1', 1, 4294967296] },
  expression: 'V_bg * 2^N_bits / code_bg',
  compute: ({ V_bg, N_bits, code_bg }) => (V_bg * 2 ** N_bits) / code_bg,
  source: ratio,
})

/** Where the internal reference stands on the scale of counts at a rail, continuous. */
export const referenceCode = /*#__PURE__*/ formula({
  symbol: 'code_bg',
  quantity: 'code of the internal reference',
  unit: '1',
  inputs: { V_bg: ['V', 0.5, 3], N_bits: ['1', 1, 32], V_rail: ['V', 1, 10] },
  expression: 'V_bg * 2^N_bits / V_rail',
  compute: ({ V_bg, N_bits, V_rail }) => (V_bg * 2 ** N_bits) / V_rail,
  source: ratio,
})

/** Volts of rail for one count: it grows with the square of the rail. Pitfall D04. */
export const railResolution = /*#__PURE__*/ formula({
  symbol: 'dV_rail',
  quantity: 'rail for one count',
  unit: 'V',
  inputs: { V_rail: ['V', 1, 10], V_bg: ['V', 0.5, 3], N_bits: ['1', 1, 32] },
  expression: 'V_rail^2 / (V_bg * 2^N_bits)',
  compute: ({ V_rail, V_bg, N_bits }) => V_rail ** 2 / (V_bg * 2 ** N_bits),
  source: 'derivative of the rail by its code',
})

/** Where a cut-off set with the nominal reference really lands on a board with another one. Pitfall D03. */
export const cutOffLanding = /*#__PURE__*/ formula({
  symbol: 'V_land',
  quantity: 'rail at which the cut-off acts',
  unit: 'V',
  inputs: { V_cut: ['V', 1, 10], V_bg: ['V', 0.5, 3], V_bgnom: ['V', 0.5, 3] },
  expression: 'V_cut * V_bg / V_bgnom',
  compute: ({ V_cut, V_bg, V_bgnom }) => (V_cut * V_bg) / V_bgnom,
  source: ratio,
})

/** Relative error of an absolute reading whose reference isn't what the firmware assumes. Pitfall D05. */
export const referenceShift = /*#__PURE__*/ formula({
  symbol: 'e_ref',
  quantity: 'relative error from the reference',
  unit: '1',
  inputs: { V_assumed: ['V', 0.1, 10], V_ref: ['V', 0.1, 10] },
  expression: 'V_assumed / V_ref - 1',
  compute: ({ V_assumed, V_ref }) => V_assumed / V_ref - 1,
  source: 'code = V/V_ref * 2^N, read back with the assumed reference',
})

/** Time to wait after switching to a reference: its start-up, or its pin's capacitor through its resistance. Pitfall D02. */
export const referenceWait = /*#__PURE__*/ formula({
  symbol: 't_refneed',
  quantity: 'wait for the reference',
  unit: 's',
  inputs: {
    t_start: ['s', 0, 1e-2],
    n_tau: ['1', 1, 25],
    R_refint: ['ohm', 0, 1e6],
    C_refpin: ['F', 0, 1e-5],
  },
  expression: 'max(t_start, n_tau * R_refint * C_refpin)',
  compute: ({ t_start, n_tau, R_refint, C_refpin }) => Math.max(t_start, n_tau * R_refint * C_refpin),
  source: 'start-up from the data sheet; step response of one pole',
  smooth: false,
})

/** What a fuse, a switch and a diode between cell and tap hide from the converter. Pitfall D09. */
export const tapDrop = /*#__PURE__*/ formula({
  symbol: 'dV_tap',
  quantity: 'drop before the tap',
  unit: 'V',
  inputs: { I_cell: ['A', 0, 100], R_series: ['ohm', 0, 10], V_F: ['V', 0, 2] },
  expression: 'I_cell * R_series + V_F',
  compute: ({ I_cell, R_series, V_F }) => I_cell * R_series + V_F,
  source: 'Ohm',
})

/** Counts that a ground shared with a switched current adds. Pitfall D07. */
export const groundBounce = /*#__PURE__*/ formula({
  symbol: 'e_bounce',
  quantity: 'counts from the shared ground',
  unit: '1',
  inputs: { I_step: ['A', 0, 100], R_gnd: ['ohm', 0, 1], V_ref: ['V', 0.1, 10], N_bits: ['1', 1, 32] },
  expression: 'I_step * R_gnd / V_ref * 2^N_bits',
  compute: ({ I_step, R_gnd, V_ref, N_bits }) => ((I_step * R_gnd) / V_ref) * 2 ** N_bits,
  source: 'Ohm',
})

/** Level that a disconnected pin settles to through its bleed resistor. Pitfall D08. */
export const bledLevel = /*#__PURE__*/ formula({
  symbol: 'V_open',
  quantity: 'voltage of the open pin',
  unit: 'V',
  inputs: { I_leak: ['A', -1e-5, 1e-5], R_bleed: ['ohm', 0, 1e8] },
  expression: 'I_leak * R_bleed',
  compute: ({ I_leak, R_bleed }) => I_leak * R_bleed,
  source: 'Ohm',
})
