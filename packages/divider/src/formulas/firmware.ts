import { twoTo } from '@ohmward/adc'
import { formula } from '@ohmward/budget'
import {
  code_out,
  G_n,
  kappa,
  N_bits,
  p_pedn,
  R_caln,
  R_ind,
  R_leadn,
  R_refn,
  R_s,
  R_swn,
  R_z,
  r,
  V_excn,
  V_refn,
  V_satn,
} from './symbols.js'

/** Ratio of sense voltage to loop voltage, as the firmware finds it with nominal constants. */
export const indicatedRatio = /*#__PURE__*/ formula({
  symbol: 'r',
  quantity: 'share of the loop voltage, as the firmware finds it',
  unit: '1',
  inputs: {
    code_out,
    N_bits,
    p_pedn,
    V_refn,
    G_n,
    V_excn,
    V_satn,
  },
  expression: '(code_out / 2^N_bits - p_pedn) * V_refn / (G_n * (V_excn - V_satn))',
  compute: ({ code_out, N_bits, p_pedn, V_refn, G_n, V_excn, V_satn }) =>
    ((code_out / twoTo(N_bits) - p_pedn) * V_refn) / (G_n * (V_excn - V_satn)),
  source: 'inverse of the chain with nominal constants',
})

/** Resistance as the firmware indicates it: the inverse of the loaded divider, with nominal constants. */
export const indicatedResistance = /*#__PURE__*/ formula({
  symbol: 'R_ind',
  quantity: 'indicated resistance',
  unit: 'ohm',
  inputs: {
    R_refn,
    R_swn,
    kappa,
    R_leadn,
    r,
  },
  expression: '(R_refn + R_swn + (1 - kappa) * R_leadn) * r / (1 - r) - kappa * R_leadn',
  compute: ({ R_refn, R_swn, kappa, R_leadn, r }) =>
    ((R_refn + R_swn + (1 - kappa) * R_leadn) * r) / (1 - r) - kappa * R_leadn,
  source: 'inverse of the loaded divider',
})

/** Indicated resistance corrected by two readings: of a short, `R_z`, and of a known resistor, `R_s`. */
export const correctedResistance = /*#__PURE__*/ formula({
  symbol: 'R_cor',
  quantity: 'indicated resistance after calibration',
  unit: 'ohm',
  inputs: { R_ind, R_z, R_s, R_caln },
  expression: '(R_ind - R_z) * R_caln / (R_s - R_z)',
  compute: ({ R_ind, R_z, R_s, R_caln }) => ((R_ind - R_z) * R_caln) / (R_s - R_z),
  source: 'straight line through two calibration points',
})

/** Indicated resistance less the reading of a short. */
export const zeroedResistance = /*#__PURE__*/ formula({
  symbol: 'R_zero',
  quantity: 'indicated resistance after zero calibration',
  unit: 'ohm',
  inputs: { R_ind, R_z },
  expression: 'R_ind - R_z',
  compute: ({ R_ind, R_z }) => R_ind - R_z,
  source: 'difference of two readings',
})
