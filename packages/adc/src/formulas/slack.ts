import { formula } from '@ohmward/budget'

/*
 * Signed slacks: positive passes. Each names the pitfall that it catches; the limit alone is a formula of its own
 * where a block wants the two sides.
 */

/** D01: sampling time against what the source needs. */
export const acquisitionSlack = /*#__PURE__*/ formula({
  symbol: 's_time',
  quantity: 'spare sampling time',
  unit: 's',
  inputs: { t_acq: ['s', 0, 1], t_need: ['s', 0, 1] },
  expression: 't_acq - t_need',
  compute: ({ t_acq, t_need }) => t_acq - t_need,
  source: 'sampling capacitor charged to half a count',
})

/** D01: reservoir at the pin against what one sample takes out of it. */
export const reservoirSlack = /*#__PURE__*/ formula({
  symbol: 's_reservoir',
  quantity: 'spare reservoir',
  unit: 'F',
  inputs: { C_res: ['F', 0, 1e-3], C_need: ['F', 0, 1e-3] },
  expression: 'C_res - C_need',
  compute: ({ C_res, C_need }) => C_res - C_need,
  source: 'charge sharing',
})

/** D02: wait after switching the reference against what it needs. */
export const referenceSlack = /*#__PURE__*/ formula({
  symbol: 's_wait',
  quantity: 'spare wait for the reference',
  unit: 's',
  inputs: { t_wait: ['s', 0, 10], t_refneed: ['s', 0, 10] },
  expression: 't_wait - t_refneed',
  compute: ({ t_wait, t_refneed }) => t_wait - t_refneed,
  source: 'start-up of the reference',
})

/** D03: band allowed to a cut-off against where the worst internal reference puts it. */
export const cutOffSlack = /*#__PURE__*/ formula({
  symbol: 's_cut',
  quantity: 'spare band of the cut-off',
  unit: 'V',
  inputs: { V_band: ['V', 0, 5], V_land: ['V', 1, 10], V_cut: ['V', 1, 10] },
  expression: 'V_band - abs(V_land - V_cut)',
  compute: ({ V_band, V_land, V_cut }) => V_band - Math.abs(V_land - V_cut),
  source: 'error of the internal reference, carried to the rail',
  smooth: false,
})

/** D04: rail step allowed against the rail for one count. */
export const railSlack = /*#__PURE__*/ formula({
  symbol: 's_rail',
  quantity: 'spare rail resolution',
  unit: 'V',
  inputs: { dV_allowed: ['V', 0, 1], dV_rail: ['V', 0, 1] },
  expression: 'dV_allowed - dV_rail',
  compute: ({ dV_allowed, dV_rail }) => dV_allowed - dV_rail,
  source: 'derivative of the rail by its code',
})

/** D05: relative error allowed to an absolute channel against what its reference shifts. */
export const absoluteSlack = /*#__PURE__*/ formula({
  symbol: 's_abs',
  quantity: 'spare error of an absolute channel',
  unit: '1',
  inputs: { e_allowed: ['1', 0, 1], e_ref: ['1', -1, 1] },
  expression: 'e_allowed - abs(e_ref)',
  compute: ({ e_allowed, e_ref }) => e_allowed - Math.abs(e_ref),
  source: 'code = V/V_ref * 2^N',
  smooth: false,
})

/** D06: noise at hand against the half count that averaging needs. */
export const ditherSlack = /*#__PURE__*/ formula({
  symbol: 's_dither',
  quantity: 'noise beyond the half count that averaging needs',
  unit: '1',
  inputs: { n_rms: ['1', 0, 100] },
  expression: 'n_rms - 0.5',
  compute: ({ n_rms }) => n_rms - 0.5,
  source: 'rounding error under normal noise; below 0.003 count from half a count on',
})

/** D07: distance of a sampling instant from an edge against five time constants of what the edge disturbs. */
export const edgeSlack = /*#__PURE__*/ formula({
  symbol: 's_edge',
  quantity: 'spare distance from the edge',
  unit: 's',
  inputs: { t_edge: ['s', 0, 1], tau: ['s', 0, 1] },
  expression: 't_edge - 5 * tau',
  compute: ({ t_edge, tau }) => t_edge - 5 * tau,
  source: 'common practice, no source',
})

/** D08: resistance read as open against the largest load and its uncertainty. */
export const openLoadSlack = /*#__PURE__*/ formula({
  symbol: 's_open',
  quantity: 'spare resistance of the open-load rule',
  unit: 'ohm',
  inputs: { R_open: ['ohm', 0, 1e6], R_max: ['ohm', 0, 1e6], U_R: ['ohm', 0, 1e6] },
  expression: 'R_open - (R_max + U_R)',
  compute: ({ R_open, R_max, U_R }) => R_open - (R_max + U_R),
  source: 'JCGM 106:2012, guard band',
})

/** D09: drop allowed between cell and tap against the largest. */
export const tapSlack = /*#__PURE__*/ formula({
  symbol: 's_tap',
  quantity: 'spare drop before the tap',
  unit: 'V',
  inputs: { dV_allowed: ['V', 0, 5], dV_tap: ['V', 0, 5] },
  expression: 'dV_allowed - dV_tap',
  compute: ({ dV_allowed, dV_tap }) => dV_allowed - dV_tap,
  source: 'Ohm',
})

/** F05: current in counts against the ten below which a quotient is no reading. */
export const quotientSlack = /*#__PURE__*/ formula({
  symbol: 's_quotient',
  quantity: 'counts beyond the ten that a quotient needs',
  unit: '1',
  inputs: { code_I: ['1', 0, 65536] },
  expression: 'code_I - 10',
  compute: ({ code_I }) => code_I - 10,
  source: 'half a count of ten is 5 %; common practice, no source',
})
