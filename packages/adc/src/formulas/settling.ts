import { formula } from '@ohmward/budget/formula'

const step = 'step response of one pole'

/** Time after which one pole has settled to half a count of N bits; the same for a filter, an amplifier or a sampler. */
export const settlingTime = /*#__PURE__*/ formula({
  symbol: 't_settle',
  quantity: 'settling time to half a count',
  unit: 's',
  inputs: { N_bits: ['1', 1, 32], tau: ['s', 1e-12, 10] },
  expression: '(N_bits + 1) * log(2) * tau',
  compute: ({ N_bits, tau }) => (N_bits + 1) * Math.log(2) * tau,
  source: 'step response of one pole; Analog Devices AN-1024, table 1, and ln 2 more for half a count',
})

/** What is still missing of a full step after a time, as a fraction of it. */
export const settlingError = /*#__PURE__*/ formula({
  symbol: 's_err',
  quantity: 'unsettled fraction',
  unit: '1',
  inputs: { t_given: ['s', 0, 1e-3], tau: ['s', 1e-5, 1] },
  expression: 'exp(-t_given / tau)',
  compute: ({ t_given, tau }) => Math.exp(-t_given / tau),
  source: step,
})

/** Bits to which one pole has settled (to one count) after a time. */
export const settledBits = /*#__PURE__*/ formula({
  symbol: 'N_settled',
  quantity: 'bits settled',
  unit: '1',
  inputs: { t_given: ['s', 0, 1], tau: ['s', 1e-9, 1] },
  expression: 't_given / (tau * log(2))',
  compute: ({ t_given, tau }) => t_given / (tau * Math.log(2)),
  source: 'step response of one pole; Analog Devices AN-1024',
})

/**
 * What two poles in a row, such as a sensor or an amplifier and the filter behind it, still miss of a step `t_set` after it.
 * Where they are equal it is the limit of two that differ. Pitfalls A07, A10, E08.
 */
export const unsettledShare = /*#__PURE__*/ formula({
  symbol: 's_f',
  quantity: 'unsettled share of the step',
  unit: '1',
  inputs: { tau_f: ['s', 1e-5, 1e-2], t_set: ['s', 1e-6, 1e-2], tau_s: ['s', 1e-8, 1e-6] },
  expression: '(tau_f * exp(-t_set / tau_f) - tau_s * exp(-t_set / tau_s)) / (tau_f - tau_s)',
  compute: ({ tau_f, t_set, tau_s }) => {
    const slow = Math.max(tau_f, tau_s)
    // A series of its own where the two are alike, and no quotient of two large numbers where they aren't.
    const apart = t_set * (1 / Math.min(tau_f, tau_s) - 1 / slow)
    const follows = apart > 0 ? -Math.expm1(-apart) / apart : 1
    return Math.exp(-t_set / slow) * (1 + (t_set / slow) * follows)
  },
  source: 'step response of two poles in series',
})

/** Time constant of a resistance and a capacitance. */
export const timeConstant = /*#__PURE__*/ formula({
  symbol: 'tau',
  quantity: 'time constant',
  unit: 's',
  inputs: { R_f: ['ohm', 0, 1e9], C_f: ['F', 0, 1] },
  expression: 'R_f * C_f',
  compute: ({ R_f, C_f }) => R_f * C_f,
  source: 'definition',
})

/** Sampling time that the source needs to charge the sampling capacitor to half a count. Pitfall D01. */
export const acquisitionNeeded = /*#__PURE__*/ formula({
  symbol: 't_need',
  quantity: 'sampling time needed',
  unit: 's',
  inputs: {
    R_s: ['ohm', 0, 1e7],
    R_sw: ['ohm', 0, 1e5],
    C_sh: ['F', 1e-13, 1e-9],
    N_bits: ['1', 1, 32],
  },
  expression: '(R_s + R_sw) * C_sh * (N_bits + 1) * log(2)',
  compute: ({ R_s, R_sw, C_sh, N_bits }) => (R_s + R_sw) * C_sh * (N_bits + 1) * Math.log(2),
  source: 'step response of one pole; sampling capacitor charged through source and switch',
})

/** What the sampling capacitor still misses of the step when sampling ends, as a fraction: it enters the reading. */
export const acquisitionError = /*#__PURE__*/ formula({
  symbol: 's_acq',
  quantity: 'unsettled fraction at the end of sampling',
  unit: '1',
  inputs: {
    t_acq: ['s', 0, 1e-5],
    R_s: ['ohm', 1e4, 1e6],
    R_sw: ['ohm', 0, 1e5],
    C_sh: ['F', 1e-11, 1e-9],
  },
  expression: 'exp(-t_acq / ((R_s + R_sw) * C_sh))',
  compute: ({ t_acq, R_s, R_sw, C_sh }) => Math.exp(-t_acq / ((R_s + R_sw) * C_sh)),
  source: step,
})

/** The pin's voltage: the source less its leakage drop, with the unsettled part of a step from empty missing. */
export const pinVoltage = /*#__PURE__*/ formula({
  symbol: 'V_pin',
  quantity: 'sampled voltage',
  unit: 'V',
  inputs: { V_s: ['V', 0, 10], s_acq: ['1', 0, 1], I_leak: ['A', -1e-5, 1e-5], R_s: ['ohm', 0, 1e6] },
  expression: 'V_s * (1 - s_acq) - I_leak * R_s',
  compute: ({ V_s, s_acq, I_leak, R_s }) => V_s * (1 - s_acq) - I_leak * R_s,
  source: 'Kirchhoff; sampling capacitor taken as empty before each sample',
})

/** Capacitor at the pin that fills the sampling capacitor and sags by at most half a count. Pitfall D01. */
export const reservoirNeeded = /*#__PURE__*/ formula({
  symbol: 'C_need',
  quantity: 'reservoir capacitance needed',
  unit: 'F',
  inputs: { C_sh: ['F', 1e-13, 1e-9], N_bits: ['1', 1, 32] },
  expression: '2^(N_bits + 1) * C_sh',
  compute: ({ C_sh, N_bits }) => 2 ** (N_bits + 1) * C_sh,
  source: 'charge sharing',
})

/**
 * Counts lost at a pin with a reservoir when every sample finds the sampling capacitor empty and the source recharges
 * the reservoir between samples `T_s` apart (steady state, full-scale input). For samples much closer than `R_s·C_res`
 * it tends to `2^N·R_s·C_sh/T_s`, whatever the reservoir: the sampling is then a resistive load. Pitfall D01.
 */
export const reservoirError = /*#__PURE__*/ formula({
  symbol: 'e_res',
  quantity: 'counts lost to charge sharing',
  unit: '1',
  inputs: {
    N_bits: ['1', 1, 32],
    C_sh: ['F', 1e-13, 1e-9],
    C_res: ['F', 1e-10, 1e-6],
    T_s: ['s', 1e-4, 1],
    R_s: ['ohm', 100, 1e6],
  },
  expression: '2^N_bits * C_sh / (C_sh + C_res * (1 - exp(-T_s / (R_s * C_res))))',
  compute: ({ N_bits, C_sh, C_res, T_s, R_s }) =>
    (2 ** N_bits * C_sh) / (C_sh + C_res * (1 - Math.exp(-T_s / (R_s * C_res)))),
  source: 'charge sharing and recharge in steady state (derived in the test)',
})
