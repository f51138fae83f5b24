import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const Q_age: InputRange = ['C', 100, 1e5]

/** Self-discharge as a current; `s_mon` is the share lost in `t_mon`, a month. */
export const selfDischargeCurrent = /*#__PURE__*/ formula({
  symbol: 'I_self',
  quantity: 'self-discharge as a current',
  unit: 'A',
  inputs: { Q_age, s_mon: ['1', 0, 0.2], t_mon: ['s', 2.5e6, 2.7e6] },
  expression: 'Q_age * s_mon / t_mon',
  compute: ({ Q_age, s_mon, t_mon }) => (Q_age * s_mon) / t_mon,
  source: 'definition: charge lost over time',
})

/** Current of a resistance that always hangs on the cells: a divider. Pitfall K07. */
export const dividerDrain = /*#__PURE__*/ formula({
  symbol: 'I_div',
  quantity: 'current of a divider across the cells',
  unit: 'A',
  inputs: { V_bat: ['V', 2, 40], R_div: ['ohm', 1e3, 1e8] },
  expression: 'V_bat / R_div',
  compute: ({ V_bat, R_div }) => V_bat / R_div,
  source: "Ohm's law",
})

/** How long a share of the charge feeds what is always on. Pitfalls K07, K09. */
export const shelfTime = /*#__PURE__*/ formula({
  symbol: 't_shelf',
  quantity: 'time on the shelf',
  unit: 's',
  inputs: { Q_age, x_q: ['1', 0, 1], I_sb: ['A', 1e-6, 0.1], I_self: ['A', 0, 1e-3] },
  expression: 'Q_age * x_q / (I_sb + I_self)',
  compute: ({ Q_age, x_q, I_sb, I_self }) => (Q_age * x_q) / (I_sb + I_self),
  source: 'charge over current',
})
