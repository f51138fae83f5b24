import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const e_bg: InputRange = ['1', -0.2, 0.2]
const e_I: InputRange = ['1', -0.3, 0.3]
const e_k: InputRange = ['1', -0.1, 0.1]

/** Error of the share of the board's power that is in the load, what is nominally lost on the way taken off. */
export const powerShareError = /*#__PURE__*/ formula({
  symbol: 'e_k',
  quantity: "relative error of the load's share of the power at the board",
  unit: '1',
  inputs: { R_L: ['ohm', 0.1, 10], R_way: ['ohm', 0, 1], R_Lnom: ['ohm', 0.1, 10], R_waynom: ['ohm', 0, 1] },
  expression: 'R_Lnom / (R_Lnom + R_waynom) * (R_L + R_way) / R_L - 1',
  compute: ({ R_L, R_way, R_Lnom, R_waynom }) => ((R_Lnom / (R_Lnom + R_waynom)) * (R_L + R_way)) / R_L - 1,
  source: 'voltage divider of load and of what is in series with it behind the board',
})

/** Relative error of a power read as voltage times current, the rail against the internal reference: it enters once. */
export const powerErrorOnce = /*#__PURE__*/ formula({
  symbol: 'e_P',
  quantity: 'relative error of the power, ratiometric sensor',
  unit: '1',
  inputs: { e_bg, e_I, e_k },
  expression: '(1 + e_bg) * (1 + e_I) * (1 + e_k) - 1',
  compute: ({ e_bg, e_I, e_k }) => (1 + e_bg) * (1 + e_I) * (1 + e_k) - 1,
  source: 'product of two readings, the rail of the current cancels',
})

/**
 * Relative error of the rail as it is read against the internal reference: its own, and what the converter makes of its code,
 * `n_err` counts of offset, nonlinearity, rounding and noise.
 */
export const railReadError = /*#__PURE__*/ formula({
  symbol: 'e_V',
  quantity: 'relative error of the rail, read against the internal reference',
  unit: '1',
  inputs: { e_bg, e_gain: ['1', -0.01, 0.01], n_err: ['1', -20, 20], code_bg: ['1', 200, 5e4] },
  expression: '(1 + e_bg) / (1 + e_gain + n_err / code_bg) - 1',
  compute: ({ e_bg, e_gain, n_err, code_bg }) => (1 + e_bg) / (1 + e_gain + n_err / code_bg) - 1,
  source: 'code of the reference against the rail, worked back with the nominal reference',
})

/**
 * The same with a sensor whose output is fixed: its code is taken against the rail too, so that the reference enters twice.
 * `e_q` is what of it is in the zero: all of it with the data sheet's zero, what it moved since with one that was read.
 */
export const powerErrorTwice = /*#__PURE__*/ formula({
  symbol: 'e_P2',
  quantity: 'relative error of the power, fixed-output sensor',
  unit: '1',
  inputs: { e_bg, e_I, e_k, e_q: e_bg, k_q: ['1', 0, 5] },
  expression: '(1 + e_bg) * ((1 + e_I) * (1 + e_bg) + e_q * k_q) * (1 + e_k) - 1',
  compute: ({ e_bg, e_I, e_k, e_q, k_q }) => (1 + e_bg) * ((1 + e_I) * (1 + e_bg) + e_q * k_q) * (1 + e_k) - 1,
  source:
    'product of two readings that share the reference; k_q is the zero output over the span that the current makes',
})

/** Relative error of a power read as the square of the current times the resistance. */
export const powerErrorSquare = /*#__PURE__*/ formula({
  symbol: 'e_Psq',
  quantity: 'relative error of the power, current squared times resistance',
  unit: '1',
  inputs: { e_I, e_R: ['1', -0.3, 0.3] },
  expression: '(1 + e_I)^2 * (1 + e_R) - 1',
  compute: ({ e_I, e_R }) => (1 + e_I) ** 2 * (1 + e_R) - 1,
  source: 'product of two readings',
})

/** Error of the power of a pulse, of which the readings took a moment. */
export const powerErrorPulsed = /*#__PURE__*/ formula({
  symbol: 'e_Pon',
  quantity: 'relative error of the power of a pulse',
  unit: '1',
  inputs: { e_P: ['1', -0.5, 0.5], k_P: ['1', 0.3, 3] },
  expression: '(1 + e_P) * k_P - 1',
  compute: ({ e_P, k_P }) => (1 + e_P) * k_P - 1,
  source: 'product; k_P is what is read of the pulse over its mean power, the readings themselves exact',
})

/** Power that the firmware may show at most so that the real one stays within a limit. */
export const powerSetPoint = /*#__PURE__*/ formula({
  symbol: 'P_set',
  quantity: 'largest power that may be shown',
  unit: 'W',
  inputs: { P_lim: ['W', 0.1, 100], e_low: ['1', -0.5, 0] },
  expression: 'P_lim * (1 + e_low)',
  compute: ({ P_lim, e_low }) => P_lim * (1 + e_low),
  source: 'the reading that errs downwards most',
})

/** Energy of a burst that nobody ends before a time is over. */
export const stuckEnergy = /*#__PURE__*/ formula({
  symbol: 'E_stuck',
  quantity: 'energy of a burst if the controller hangs',
  unit: 'J',
  inputs: { P_full: ['W', 0.1, 100], t_wd: ['s', 0.1, 1000] },
  expression: 'P_full * t_wd',
  compute: ({ P_full, t_wd }) => P_full * t_wd,
  source: 'energy = power times time',
})
