import { formula } from '@ohmward/budget'

/** Resistance of the source: the power path added up, the cell's part for its temperature and age. */
export const sourceResistance = /*#__PURE__*/ formula({
  symbol: 'R_s',
  quantity: 'source resistance',
  unit: 'ohm',
  inputs: {
    R_cell: ['ohm', 0.005, 0.5],
    k_T: ['1', 0.8, 6],
    k_old: ['1', 1, 2],
    R_path: ['ohm', 0.001, 0.5],
  },
  expression: 'R_cell * k_T * k_old + R_path',
  compute: ({ R_cell, k_T, k_old, R_path }) => R_cell * k_T * k_old + R_path,
  source: 'resistances in series; factors for temperature and age are common practice',
})

/** Open-circuit voltage at the rail behind a polarity diode. */
export const voltageBehindDiode = /*#__PURE__*/ formula({
  symbol: 'V_oc',
  quantity: 'open-circuit voltage at the rail',
  unit: 'V',
  inputs: { V_cell: ['V', 2, 15], V_pol: ['V', 0, 0.8] },
  expression: 'V_cell - V_pol',
  compute: ({ V_cell, V_pol }) => V_cell - V_pol,
  source: "Kirchhoff's voltage law",
})

/** Power lost in a resistance of the power path. */
export const pathLoss = /*#__PURE__*/ formula({
  symbol: 'P_path',
  quantity: 'power lost in the path',
  unit: 'W',
  inputs: { I_end: ['A', 0.01, 20], R_path: ['ohm', 0.001, 0.5] },
  expression: 'I_end^2 * R_path',
  compute: ({ I_end, R_path }) => I_end * I_end * R_path,
  source: "Joule's law",
})
