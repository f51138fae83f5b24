import { twoTo } from '@ohmward/adc'
import { formula } from '@ohmward/budget'
import {
  d_m,
  G_n,
  G_noise,
  GBW,
  g_n,
  I_clamp,
  I_t,
  kappa,
  N_bits,
  R_cn,
  R_leadn,
  R_out,
  R_refn,
  R_swn,
  R_thx,
  R_x,
  r,
  SR,
  t_filter,
  t_rec,
  t_settle,
  t_wait,
  tau_x,
  V_clamp,
  V_excn,
  V_hi,
  V_over,
  V_refn,
  V_satn,
} from './symbols.js'

/** Step of the indicated resistance from one code to the next, load at ground. Pitfall B01. */
export const countResistance = /*#__PURE__*/ formula({
  symbol: 'R_count',
  quantity: 'resistance for one count',
  unit: 'ohm',
  inputs: {
    R_refn,
    R_swn,
    kappa,
    R_leadn,
    r,
    V_refn,
    N_bits,
    G_n,
    V_excn,
    V_satn,
  },
  expression: '(R_refn + R_swn + (1 - kappa) * R_leadn) / (1 - r)^2 * V_refn / (2^N_bits * G_n * (V_excn - V_satn))',
  compute: ({ R_refn, R_swn, kappa, R_leadn, r, V_refn, N_bits, G_n, V_excn, V_satn }) =>
    (((R_refn + R_swn + (1 - kappa) * R_leadn) / ((1 - r) * (1 - r))) * V_refn) /
    (twoTo(N_bits) * G_n * (V_excn - V_satn)),
  source: 'derivative of the indicated resistance by the code',
})

/** Step of the indicated resistance from one code to the next, load at the rail. Pitfall B01. */
export const countResistanceAtRail = /*#__PURE__*/ formula({
  symbol: 'R_count',
  quantity: 'resistance for one count',
  unit: 'ohm',
  inputs: {
    r: ['1', 0, 0.4],
    V_satn: ['V', 0, 0.1],
    V_excn,
    R_refn: ['ohm', 1, 1e4],
    R_swn,
    kappa,
    R_leadn,
    g_n,
    R_cn,
    V_refn,
    N_bits,
  },
  expression:
    '((1 - V_satn / V_excn) / (R_refn + R_swn + (1 - kappa) * R_leadn) + 1 / ((1 + g_n) * R_cn)) / ((1 - r - V_satn / V_excn) / (R_refn + R_swn + (1 - kappa) * R_leadn) + (1 / (1 + g_n) - r) / R_cn)^2 * V_refn / (2^N_bits * g_n * V_excn)',
  compute: ({ r, V_satn, V_excn, R_refn, R_swn, kappa, R_leadn, g_n, R_cn, V_refn, N_bits }) => {
    const R_low = R_refn + R_swn + (1 - kappa) * R_leadn
    const rest = (1 - r - V_satn / V_excn) / R_low + (1 / (1 + g_n) - r) / R_cn
    const slope = ((1 - V_satn / V_excn) / R_low + 1 / ((1 + g_n) * R_cn)) / (rest * rest)
    return (slope * V_refn) / (twoTo(N_bits) * g_n * V_excn)
  },
  source: 'derivative of the indicated resistance by the code',
})

/** Highest resistance between the sense points that still reads, load at ground; beyond it the output stands still. Pitfall A01. */
export const ceilingResistance = /*#__PURE__*/ formula({
  symbol: 'R_ceil',
  quantity: 'highest resistance that reads',
  unit: 'ohm',
  inputs: {
    R_out,
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
  source: 'loaded divider, solved for the resistance at the highest output',
})

/** Time constant of the closed loop. Pitfalls A07, A10. */
export const amplifierTimeConstant = /*#__PURE__*/ formula({
  symbol: 'tau_a',
  quantity: 'time constant of the amplifier',
  unit: 's',
  inputs: { G_noise, GBW },
  expression: 'G_noise / (2 * pi * GBW)',
  compute: ({ G_noise, GBW }) => G_noise / (2 * Math.PI * GBW),
  source: 'one-pole amplifier',
})

/** Time from the edge until the reading stands: recovery, slewing, then the settling of amplifier and filter. Pitfalls A07, A10. */
export const neededWait = /*#__PURE__*/ formula({
  symbol: 't_need',
  quantity: 'time until the output stands within half a count',
  unit: 's',
  inputs: {
    t_rec,
    V_hi,
    SR,
    t_settle,
    t_filter,
  },
  expression: 't_rec + V_hi / SR + t_settle + t_filter',
  compute: ({ t_rec, V_hi, SR, t_settle, t_filter }) => t_rec + V_hi / SR + t_settle + t_filter,
  source: 'sum of the times, which is no less than the settling of the whole; common practice, no source',
})

/** Series resistance that keeps a clamp's current at 1 mA when the line goes `V_over` beyond a rail. Pitfalls A06, A07. */
export const neededProtection = /*#__PURE__*/ formula({
  symbol: 'R_pneed',
  quantity: 'series resistance that the sense input needs',
  unit: 'ohm',
  inputs: { V_over, V_clamp, I_clamp },
  expression: 'max(V_over - V_clamp, V_clamp - V_clamp) / I_clamp',
  compute: ({ V_over, V_clamp, I_clamp }) => Math.max(V_over - V_clamp, 0) / I_clamp,
  source: 'common practice, no source: clamps conduct from 0.3 V on, 1 mA is safe',
  smooth: false,
})

/** Warming of the load by the test current: one pulse of length `t_wait`, and the mean of many. Pitfall B06. */
export const loadWarming = /*#__PURE__*/ formula({
  symbol: 'T_warm',
  quantity: 'warming of the load by the test current',
  unit: 'K',
  inputs: {
    I_t,
    R_x,
    R_thx,
    d_m,
    t_wait,
    tau_x,
  },
  expression: 'I_t^2 * R_x * R_thx * (d_m + 1 - exp(-t_wait / tau_x))',
  compute: ({ I_t, R_x, R_thx, d_m, t_wait, tau_x }) => I_t * I_t * R_x * R_thx * (d_m + 1 - Math.exp(-t_wait / tau_x)),
  source: 'Joule; first-order thermal model, pulse and mean added',
})
