import { formula } from '@ohmward/budget/formula'

/*
 * A sampling capacitor, empty, is connected through its switch to a capacitor that its source keeps charged. Two poles,
 * always real; what the sampling capacitor still misses is a sum of two exponentials.
 */
const sampling = 'Kirchhoff: two RC sections, sampling capacitor empty at first (integrated numerically in the test)'

/** Slower time constant of the two sections. */
export const slowSection = /*#__PURE__*/ formula({
  symbol: 'tau_1',
  quantity: 'slower time constant of filter and sampling switch',
  unit: 's',
  inputs: { R_src: ['ohm', 10, 1e5], C_f: ['F', 1e-10, 1e-6], R_sw: ['ohm', 1, 1e5], C_sh: ['F', 1e-12, 1e-10] },
  expression:
    '(R_src * (C_f + C_sh) + R_sw * C_sh + sqrt((R_src * (C_f + C_sh) + R_sw * C_sh)^2 - 4 * R_src * C_f * R_sw * C_sh)) / 2',
  compute: ({ R_src, C_f, R_sw, C_sh }) => {
    const sum = R_src * (C_f + C_sh) + R_sw * C_sh
    return (sum + Math.sqrt(sum * sum - 4 * R_src * C_f * R_sw * C_sh)) / 2
  },
  source: sampling,
})

/** Faster time constant of the two sections. */
export const fastSection = /*#__PURE__*/ formula({
  symbol: 'tau_2',
  quantity: 'faster time constant of filter and sampling switch',
  unit: 's',
  inputs: {
    R_src: ['ohm', 10, 1e5],
    C_f: ['F', 1e-10, 1e-6],
    R_sw: ['ohm', 1, 1e5],
    C_sh: ['F', 1e-12, 1e-10],
    tau_1: ['s', 1e-9, 1],
  },
  expression: 'R_src * C_f * R_sw * C_sh / tau_1',
  compute: ({ R_src, C_f, R_sw, C_sh, tau_1 }) => (R_src * C_f * R_sw * C_sh) / tau_1,
  source: sampling,
})

/**
 * Counts that the sampling capacitor misses at the end of the last sample of a burst: `M_w` samples, one each `T_s`, and
 * such a burst each `T_i`; `M_w` is 1 where samples stand by themselves. What each sample takes from the filter is still
 * missing at the later ones. Pitfall D01.
 */
export const burstLoss = /*#__PURE__*/ formula({
  symbol: 'e_burst',
  quantity: 'counts missing at the end of the last sample of a burst',
  unit: '1',
  inputs: {
    code_ideal: ['1', 0, 4096],
    R_sw: ['ohm', 1, 1e5],
    C_sh: ['F', 1e-12, 1e-10],
    tau_1: ['s', 1e-5, 1e-3],
    tau_2: ['s', 1e-8, 1e-6],
    t_acq: ['s', 1e-7, 1e-5],
    M_w: ['1', 1, 64],
    T_s: ['s', 1e-5, 1e-3],
    T_i: ['s', 1e-3, 1e-1],
  },
  expression:
    'code_ideal * ((tau_2 / (R_sw * C_sh) - 1) * tau_1 / (tau_2 - tau_1) * exp(-t_acq / tau_1) * (1 - exp(-M_w * T_s / tau_1)) / (1 - exp(-T_s / tau_1)) / (1 - exp(-T_i / tau_1)) + (tau_1 / (R_sw * C_sh) - 1) * tau_2 / (tau_1 - tau_2) * exp(-t_acq / tau_2))',
  compute: ({ code_ideal, R_sw, C_sh, tau_1, tau_2, t_acq, M_w, T_s, T_i }) => {
    const slow = ((tau_2 / (R_sw * C_sh) - 1) * tau_1) / (tau_2 - tau_1)
    const fast = ((tau_1 / (R_sw * C_sh) - 1) * tau_2) / (tau_1 - tau_2)
    const before = Math.expm1((-M_w * T_s) / tau_1) / Math.expm1(-T_s / tau_1) / -Math.expm1(-T_i / tau_1)
    return code_ideal * (slow * Math.exp(-t_acq / tau_1) * before + fast * Math.exp(-t_acq / tau_2))
  },
  source:
    'Kirchhoff: two RC sections, sampling capacitor empty at first; superposition of the samples, a geometric series (stepped in the test)',
})
