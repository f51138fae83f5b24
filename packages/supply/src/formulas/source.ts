import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const V_drop: InputRange = ['V', 0, 1]
const R_path: InputRange = ['ohm', 0.001, 0.5]

/** Open-circuit voltage that a load sees: the cells less the forward voltage of what diodes stand in the path. Pitfall K13. */
export const cellOpenCircuit = /*#__PURE__*/ formula({
  symbol: 'V_oc',
  quantity: 'open-circuit voltage seen by the load',
  unit: 'V',
  inputs: { V_bat: ['V', 2, 40], V_drop },
  expression: 'V_bat - V_drop',
  compute: ({ V_bat, V_drop }) => V_bat - V_drop,
  source: "Kirchhoff's voltage law",
})

/** Open-circuit voltage of a port or bench supply, as a load sees it. */
export const portOpenCircuit = /*#__PURE__*/ formula({
  symbol: 'V_oc',
  quantity: 'open-circuit voltage seen by the load',
  unit: 'V',
  inputs: { V_port: ['V', 2, 60], V_drop },
  expression: 'V_port - V_drop',
  compute: ({ V_port, V_drop }) => V_port - V_drop,
  source: "Kirchhoff's voltage law",
})

/** Resistance that a load sees: cells and power path. */
export const cellSourceResistance = /*#__PURE__*/ formula({
  symbol: 'R_s',
  quantity: 'source resistance seen by the load',
  unit: 'ohm',
  inputs: { R_bat: ['ohm', 0.005, 2], R_path },
  expression: 'R_bat + R_path',
  compute: ({ R_bat, R_path }) => R_bat + R_path,
  source: 'resistances in series',
})

/** Resistance that a load sees behind the leads of a port or bench supply. */
export const portSourceResistance = /*#__PURE__*/ formula({
  symbol: 'R_s',
  quantity: 'source resistance seen by the load',
  unit: 'ohm',
  inputs: { R_lead: ['ohm', 0, 2], R_path },
  expression: 'R_lead + R_path',
  compute: ({ R_lead, R_path }) => R_lead + R_path,
  source: 'resistances in series',
})
