import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const R: InputRange = ['ohm', 1e3, 1e7]

/** Share of the rail that a divider of two resistors leaves at a pin. */
export const dividerShare = /*#__PURE__*/ formula({
  symbol: 'k_div',
  quantity: 'share of the rail at the pin',
  unit: '1',
  inputs: { R_up: R, R_low: R },
  expression: 'R_low / (R_up + R_low)',
  compute: ({ R_up, R_low }) => R_low / (R_up + R_low),
  source: 'Kirchhoff',
})

/** Internal reference as the firmware sees it through the converter, whose gain and counts move its code. */
export const seenReference = /*#__PURE__*/ formula({
  symbol: 'V_seen',
  quantity: 'internal reference as read',
  unit: 'V',
  inputs: { V_bg: ['V', 0.5, 3], e_gain: ['1', -0.01, 0.01], n_err: ['1', -20, 20], code_bg: ['1', 200, 5e4] },
  expression: 'V_bg * (1 + e_gain + n_err / code_bg)',
  compute: ({ V_bg, e_gain, n_err, code_bg }) => V_bg * (1 + e_gain + n_err / code_bg),
  source: 'code of the reference with the gain and the counts of the converter',
})

/** Rail at which a threshold acts that is read through a divider: its ratio is off, and the pin leaks through its upper resistor. */
export const dividedLanding = /*#__PURE__*/ formula({
  symbol: 'V_div',
  quantity: 'rail at which a threshold acts, read through a divider',
  unit: 'V',
  inputs: { V_act: ['V', 1, 60], k_divn: ['1', 0.05, 1], k_div: ['1', 0.05, 1], I_leak: ['A', -1e-6, 1e-6], R_up: R },
  expression: 'V_act * k_divn / k_div + I_leak * R_up',
  compute: ({ V_act, k_divn, k_div, I_leak, R_up }) => (V_act * k_divn) / k_div + I_leak * R_up,
  source: 'Kirchhoff, with the nominal ratio in the firmware',
})

/** Rail as it is read through a divider: the firmware has its nominal ratio, and the pin leaks through its upper resistor. */
export const dividedReading = /*#__PURE__*/ formula({
  symbol: 'V_read',
  quantity: 'rail as it is read through a divider',
  unit: 'V',
  inputs: {
    V_true: ['V', 1, 60],
    e_V: ['1', -0.2, 0.2],
    k_divn: ['1', 0.05, 1],
    k_div: ['1', 0.05, 1],
    I_leak: ['A', -1e-6, 1e-6],
    R_up: R,
  },
  expression: '(V_true - I_leak * R_up) * k_div / k_divn * (1 + e_V)',
  compute: ({ V_true, e_V, k_divn, k_div, I_leak, R_up }) => (((V_true - I_leak * R_up) * k_div) / k_divn) * (1 + e_V),
  source: 'Kirchhoff, with the nominal ratio in the firmware',
})

/** Rail for one count of its divided voltage. */
export const dividedResolution = /*#__PURE__*/ formula({
  symbol: 'V_1',
  quantity: 'rail for one count, read through a divider',
  unit: 'V',
  inputs: { V_own: ['V', 1, 6], k_div: ['1', 0.05, 1], N_bits: ['1', 8, 24] },
  expression: 'V_own / (k_div * 2^N_bits)',
  compute: ({ V_own, k_div, N_bits }) => V_own / (k_div * 2 ** N_bits),
  source: 'a count is the 2^N-th part of the own rail',
})

/** What cells still lack of their voltage at rest when they are read after the load: it comes back over up to half an hour. Pitfall K04. */
export const stillLacking = /*#__PURE__*/ formula({
  symbol: 'V_lack',
  quantity: 'recovery still to come when the cells are read at rest',
  unit: 'V',
  inputs: { k_lack: ['1', 0, 1], I_mean: ['A', 0.01, 10], R_bat: ['ohm', 0.005, 1] },
  expression: 'k_lack * I_mean * R_bat',
  compute: ({ k_lack, I_mean, R_bat }) => k_lack * I_mean * R_bat,
  source: "Ohm's law, and the share of that voltage which comes back late, as it is measured",
})
