import { formula } from '@ohmward/budget/formula'

/** Voltage of one cell at rest on its curve, from which its charge is read: `e_oc` is how far it is off the curve. */
export const restingVoltage = /*#__PURE__*/ formula({
  symbol: 'U_0',
  quantity: 'voltage of one cell on its curve',
  unit: 'V',
  inputs: { V_oc: ['V', 2, 15], n_s: ['1', 1, 10], e_oc: ['V', -0.1, 0.1] },
  expression: 'V_oc / n_s - e_oc',
  compute: ({ V_oc, n_s, e_oc }) => V_oc / n_s - e_oc,
  source: "Kirchhoff's voltage law; the curve is that of the cell's data sheet",
})

/** Voltage of the source at the rail, nothing drawn: less the forward voltage of diodes in the path. */
export const sourceVoltage = /*#__PURE__*/ formula({
  symbol: 'V_s',
  quantity: 'source voltage at the rail, nothing drawn',
  unit: 'V',
  inputs: { V_oc: ['V', 2, 15], V_drop: ['V', 0, 0.8] },
  expression: 'V_oc - V_drop',
  compute: ({ V_oc, V_drop }) => V_oc - V_drop,
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
