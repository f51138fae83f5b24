import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const I_max: InputRange = ['A', 0.01, 100]

/** Loss of the diode that carries the current of a winding while the switch is off, and until it is on again after its command. */
export const freewheelLoss = /*#__PURE__*/ formula({
  symbol: 'P_fw',
  quantity: 'loss of the freewheeling diode',
  unit: 'W',
  inputs: { V_F: ['V', 0.2, 2], I_max, D: ['1', 0, 0.99], f_edge: ['Hz', 0, 1e6], t_ton: ['s', 0, 1e-3] },
  expression: 'V_F * I_max * min(1 - D + f_edge * t_ton, 1)',
  compute: ({ V_F, I_max, D, f_edge, t_ton }) => V_F * I_max * Math.min(1 - D + f_edge * t_ton, 1),
  source: 'Joule; the winding keeps its current until the switch has taken it over',
  smooth: false,
})

/** Current through load and body diode when a cell is reversed: the gate has no say. */
export const reversedCurrent = /*#__PURE__*/ formula({
  symbol: 'I_rev',
  quantity: 'current with the cell reversed',
  unit: 'A',
  inputs: {
    V_oc: ['V', 3, 60],
    V_SD: ['V', 0.4, 1.5],
    R_s: ['ohm', 0, 1],
    R_L: ['ohm', 0.05, 100],
    R_sh: ['ohm', 0, 0.1],
  },
  expression: '(V_oc - V_SD) / (R_s + R_L + R_sh)',
  compute: ({ V_oc, V_SD, R_s, R_L, R_sh }) => (V_oc - V_SD) / (R_s + R_L + R_sh),
  source: 'Kirchhoff',
})

/** What the body diode dissipates then; of several the warmest may take it all, since its voltage falls with heat. */
export const reversedLoss = /*#__PURE__*/ formula({
  symbol: 'P_rev',
  quantity: 'loss of one body diode with the cell reversed',
  unit: 'W',
  inputs: { V_SD: ['V', 0.4, 1.5], I_rev: ['A', 0.01, 100] },
  expression: 'V_SD * I_rev',
  compute: ({ V_SD, I_rev }) => V_SD * I_rev,
  source: 'Joule',
})

/** Loss in the edges of a clamped inductive load, whose diode holds the drain above the supply. */
export const clampedEdgeLoss = /*#__PURE__*/ formula({
  symbol: 'P_edge',
  quantity: 'loss in the edges, of one device',
  unit: 'W',
  inputs: {
    V_oc: ['V', 1, 60],
    V_F: ['V', 0, 2],
    I_max,
    f_edge: ['Hz', 0, 1e6],
    t_edge: ['s', 1e-9, 1e-3],
    n: ['1', 1, 8],
  },
  expression: '(V_oc + V_F) * I_max * f_edge * t_edge / (2 * n)',
  compute: ({ V_oc, V_F, I_max, f_edge, t_edge, n }) => ((V_oc + V_F) * I_max * f_edge * t_edge) / (2 * n),
  source: 'current moves at full voltage, then voltage at full current, linear edges',
})
