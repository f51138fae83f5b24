import { twoTo } from '@ohmward/adc/formulas'
import { formula } from '@ohmward/budget/formula'

/** Step of the indicated resistance from one code to the next, load at ground. Pitfall B01. */
export const countResistance = /*#__PURE__*/ formula({
  symbol: 'R_count',
  quantity: 'resistance per count',
  unit: 'ohm',
  inputs: {
    R_refn: ['ohm', 1, 1e5],
    R_swn: ['ohm', 0, 100],
    kappa: ['1', 0, 1],
    R_leadn: ['ohm', 0, 10],
    r: ['1', -0.1, 0.9],
    V_refn: ['V', 0.5, 36],
    N_bits: ['1', 8, 16],
    G_n: ['1', 1, 1e4],
    V_excn: ['V', 1, 60],
    V_satn: ['V', 0, 0.4],
  },
  expression:
    '(R_refn + R_swn + (1 - kappa) * R_leadn) / max(1 - r, 0.001)^2 * V_refn / (2^N_bits * G_n * (V_excn - V_satn))',
  compute: (x) =>
    (((x.R_refn + x.R_swn + (1 - x.kappa) * x.R_leadn) / Math.max(1 - x.r, 0.001) ** 2) * x.V_refn) /
    (twoTo(x.N_bits) * x.G_n * (x.V_excn - x.V_satn)),
  source: 'derivative of the indicated resistance by the code',
  smooth: false,
})

/** Highest resistance between the sense points that still reads, load at ground; beyond it the output stands still. Pitfall A01. */
export const ceilingResistance = /*#__PURE__*/ formula({
  symbol: 'R_ceil',
  quantity: 'highest resistance',
  unit: 'ohm',
  inputs: {
    R_out: ['ohm', 1, 1e5],
    V_hi: ['V', 0, 4],
    p_ped: ['1', 0, 0.1],
    V_ref: ['V', 0.5, 4],
    G_a: ['1', 6, 1e4],
    V_exc: ['V', 1, 5],
    V_sat: ['V', 0, 0.3],
  },
  expression: 'R_out * (V_hi - p_ped * V_ref) / (G_a * (V_exc - V_sat) - (V_hi - p_ped * V_ref))',
  compute: ({ R_out, V_hi, p_ped, V_ref, G_a, V_exc, V_sat }) => {
    const V_room = V_hi - p_ped * V_ref
    return (R_out * V_room) / (G_a * (V_exc - V_sat) - V_room)
  },
  source: 'Kirchhoff, solved for the load',
})

/** Time constant of the closed loop. Pitfalls A07, A10. */
export const amplifierTimeConstant = /*#__PURE__*/ formula({
  symbol: 'tau_a',
  quantity: 'time constant of the amplifier',
  unit: 's',
  inputs: { G_noise: ['1', 1, 1e4], GBW: ['Hz', 1e3, 1e9] },
  expression: 'G_noise / (2 * pi * GBW)',
  compute: (x) => x.G_noise / (2 * Math.PI * x.GBW),
  source: 'one-pole amplifier',
})

/** Time from the edge until the reading stands: recovery, slewing, then the settling of amplifier and filter. Pitfalls A07, A10. */
export const neededWait = /*#__PURE__*/ formula({
  symbol: 't_need',
  quantity: 'time to settle to half a count',
  unit: 's',
  inputs: {
    t_rec: ['s', 0, 1e-2],
    V_hi: ['V', 0, 36],
    SR: ['V/s', 1e3, 1e9],
    t_settle: ['s', 0, 1],
    t_filter: ['s', 0, 1],
  },
  expression: 't_rec + V_hi / SR + t_settle + t_filter',
  compute: (x) => x.t_rec + x.V_hi / x.SR + x.t_settle + x.t_filter,
  source: 'common practice, no source',
})

/** Series resistance that keeps a clamp's current at 1 mA when the line goes `V_over` beyond a rail. Pitfalls A06, A07. */
export const neededProtection = /*#__PURE__*/ formula({
  symbol: 'R_pneed',
  quantity: 'series resistance needed',
  unit: 'ohm',
  inputs: { V_over: ['V', 0, 100], V_clamp: ['V', 0.3, 0.7], I_clamp: ['A', 1e-4, 1e-2] },
  expression: 'max(V_over - V_clamp, V_clamp - V_clamp) / I_clamp',
  compute: (x) => Math.max(x.V_over - x.V_clamp, 0) / x.I_clamp,
  source: 'common practice, no source',
  smooth: false,
})

/** Warming of the load by the test current: one pulse of length `t_wait`, and the mean of many. Pitfall B06. */
export const loadWarming = /*#__PURE__*/ formula({
  symbol: 'T_warm',
  quantity: 'temperature rise of the load by the test current',
  unit: 'K',
  inputs: {
    I_t: ['A', 0, 10],
    R_x: ['ohm', 0, 100],
    R_thx: ['K/W', 0, 1e3],
    d_m: ['1', 0, 1],
    t_wait: ['s', 0, 1],
    tau_x: ['s', 1e-3, 1e3],
  },
  expression: 'I_t^2 * R_x * R_thx * (d_m + 1 - exp(-t_wait / tau_x))',
  compute: (x) => x.I_t * x.I_t * x.R_x * x.R_thx * (x.d_m + 1 - Math.exp(-x.t_wait / x.tau_x)),
  source: 'Joule; one thermal time constant',
})

/** Output below which a zero can't be read: two counts above the lowest output. Pitfall A04. */
export const zeroFloor = /*#__PURE__*/ formula({
  symbol: 'V_floor',
  quantity: 'lowest output at which a zero can be read',
  unit: 'V',
  inputs: { V_ol: ['V', 0, 2], V_ref: ['V', 0.5, 36], N_bits: ['1', 8, 16] },
  expression: 'V_ol + 2 * V_ref / 2^N_bits',
  compute: (x) => x.V_ol + (2 * x.V_ref) / 2 ** x.N_bits,
  source: 'two counts above the clip: common practice, no source',
})

/** Dissipation of the reference resistor in the mean of a measuring cycle, at the temperature that it has. Pitfall B07. */
export const meanDissipation = /*#__PURE__*/ formula({
  symbol: 'P_mean',
  quantity: 'mean dissipation of the reference resistor',
  unit: 'W',
  inputs: { I_r: ['A', 0, 10], R_warm: ['ohm', 1, 1e5], d_m: ['1', 0, 1] },
  expression: 'I_r^2 * R_warm * d_m',
  compute: (x) => x.I_r * x.I_r * x.R_warm * x.d_m,
  source: 'Joule; mean of a pulse',
})

/** How far excitation over reference is off from what the firmware takes for it, relative. Pitfalls B08, D05. */
export const ratioShift = /*#__PURE__*/ formula({
  symbol: 'e_ratio',
  quantity: 'excitation to reference, against the nominal ratio, relative',
  unit: '1',
  inputs: { V_exc: ['V', 0.5, 60], V_ref: ['V', 0.5, 36], V_refn: ['V', 0.5, 36], V_excn: ['V', 1, 60] },
  expression: 'V_exc / V_ref * V_refn / V_excn - 1',
  compute: (x) => ((x.V_exc / x.V_ref) * x.V_refn) / x.V_excn - 1,
  source: 'ratio of two ratios',
})
