import { twoTo } from '@ohmward/adc/formulas'
import { formula } from '@ohmward/budget/formula'

/** Ratio of sense voltage to loop voltage, as the firmware finds it with nominal constants. */
export const indicatedRatio = /*#__PURE__*/ formula({
  symbol: 'r',
  quantity: 'share of the loop voltage, indicated',
  unit: '1',
  inputs: {
    code_out: ['1', 0, 65535],
    N_bits: ['1', 8, 16],
    p_pedn: ['1', 0, 0.5],
    V_refn: ['V', 0.5, 36],
    G_n: ['1', 1, 1e4],
    V_excn: ['V', 1, 60],
    V_satn: ['V', 0, 0.4],
  },
  expression: '(code_out / 2^N_bits - p_pedn) * V_refn / (G_n * (V_excn - V_satn))',
  compute: (x) => ((x.code_out / twoTo(x.N_bits) - x.p_pedn) * x.V_refn) / (x.G_n * (x.V_excn - x.V_satn)),
  source: 'inverse of the chain with nominal constants',
})

/**
 * Resistance as the firmware indicates it: the inverse of the loaded divider, with nominal constants. What is left of the
 * loop voltage counts for a thousandth of it at least: beyond, an open load reads a thousand times the rest of the loop.
 */
export const indicatedResistance = /*#__PURE__*/ formula({
  symbol: 'R_ind',
  quantity: 'indicated resistance',
  unit: 'ohm',
  inputs: {
    R_refn: ['ohm', 1, 1e5],
    R_swn: ['ohm', 0, 100],
    kappa: ['1', 0, 1],
    R_leadn: ['ohm', 0, 10],
    r: ['1', -0.1, 0.9],
  },
  expression: '(R_refn + R_swn + (1 - kappa) * R_leadn) * r / max(1 - r, 0.001) - kappa * R_leadn',
  compute: (x) =>
    ((x.R_refn + x.R_swn + (1 - x.kappa) * x.R_leadn) * x.r) / Math.max(1 - x.r, 0.001) - x.kappa * x.R_leadn,
  source: 'inverse of the chain with nominal constants',
  smooth: false,
})

/**
 * Indicated resistance corrected by two readings: of a short, `R_z`, and of a known resistor, `R_s`. A span of less than a
 * tenth of the known resistor is none, and counts for a tenth: where both readings stand still it would be 0.
 */
export const correctedResistance = /*#__PURE__*/ formula({
  symbol: 'R_cor',
  quantity: 'indicated resistance, calibrated',
  unit: 'ohm',
  inputs: { R_ind: ['ohm', 0, 100], R_z: ['ohm', -0.05, 0.05], R_s: ['ohm', 0.1, 100], R_caln: ['ohm', 0.1, 100] },
  expression: '(R_ind - R_z) * R_caln / max(R_s - R_z, R_caln / 10)',
  compute: (x) => ((x.R_ind - x.R_z) * x.R_caln) / Math.max(x.R_s - x.R_z, x.R_caln / 10),
  source: 'straight line through two points; least span: common practice, no source',
  smooth: false,
})

/** Indicated resistance less the reading of a short. */
export const zeroedResistance = /*#__PURE__*/ formula({
  symbol: 'R_zero',
  quantity: 'indicated resistance, zeroed',
  unit: 'ohm',
  inputs: { R_ind: ['ohm', 0, 100], R_z: ['ohm', -0.05, 0.05] },
  expression: 'R_ind - R_z',
  compute: (x) => x.R_ind - x.R_z,
  source: 'straight line through two points',
})
