import { formula } from '@ohmward/budget'

const series = 'resistances in series'
const path = ['ohm', 0, 0.5] as const

/** Resistance of the source: the cell's for its temperature and age, and each element of the path. */
export const sourceResistance = /*#__PURE__*/ formula({
  symbol: 'R_s',
  quantity: 'source resistance',
  unit: 'ohm',
  inputs: {
    R_cell: ['ohm', 0.005, 0.5],
    k_T: ['1', 0.8, 6],
    k_aged: ['1', 1, 2],
    R_cont: path,
    R_prot: path,
    R_sw: path,
    R_sens: path,
    R_conn: path,
    R_wire: path,
  },
  expression: 'R_cell * k_T * k_aged + R_cont + R_prot + R_sw + R_sens + R_conn + R_wire',
  compute: ({ R_cell, k_T, k_aged, R_cont, R_prot, R_sw, R_sens, R_conn, R_wire }) =>
    R_cell * k_T * k_aged + R_cont + R_prot + R_sw + R_sens + R_conn + R_wire,
  source: 'resistances in series; factors for temperature and age are common practice',
})

/** Resistance of a supply at the end of its cable. */
export const supplyResistance = /*#__PURE__*/ formula({
  symbol: 'R_s',
  quantity: 'source resistance',
  unit: 'ohm',
  inputs: { R_cable: ['ohm', 0.01, 10] },
  expression: 'R_cable',
  compute: ({ R_cable }) => R_cable,
  source: series,
})

/** Voltage of the source at the rail, nothing drawn: that of the cell behind a polarity diode. */
export const sourceVoltage = /*#__PURE__*/ formula({
  symbol: 'V_s',
  quantity: 'source voltage at the rail, nothing drawn',
  unit: 'V',
  inputs: { V_oc: ['V', 2, 15], V_pol: ['V', 0, 0.8] },
  expression: 'V_oc - V_pol',
  compute: ({ V_oc, V_pol }) => V_oc - V_pol,
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
