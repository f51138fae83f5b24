import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const I_L: InputRange = ['A', 0.01, 20]
const d_on: InputRange = ['1', 0.01, 1]
const t_burst: InputRange = ['s', 0.01, 100]

/** Charge between two states of charge. */
export const usableCharge = /*#__PURE__*/ formula({
  symbol: 'Q_use',
  quantity: 'usable charge',
  unit: 'C',
  inputs: { Q_age: ['C', 100, 1e5], q_from: ['1', 0.5, 1], q_to: ['1', 0, 0.4] },
  expression: 'Q_age * (q_from - q_to)',
  compute: ({ Q_age, q_from, q_to }) => Q_age * (q_from - q_to),
  source: 'definition of the state of charge',
})

/** Charge of one burst. */
export const burstCharge = /*#__PURE__*/ formula({
  symbol: 'Q_burst',
  quantity: 'charge of a burst',
  unit: 'C',
  inputs: { I_L, d_on, t_burst },
  expression: 'I_L * d_on * t_burst',
  compute: ({ I_L, d_on, t_burst }) => I_L * d_on * t_burst,
  source: 'current times time',
})

/** Energy that one burst puts into the load. */
export const burstEnergy = /*#__PURE__*/ formula({
  symbol: 'E_burst',
  quantity: 'energy of a burst in the load',
  unit: 'J',
  inputs: { P_mean: ['W', 0.01, 200], t_burst },
  expression: 'P_mean * t_burst',
  compute: ({ P_mean, t_burst }) => P_mean * t_burst,
  source: 'power times time',
})

/** Bursts that a charge holds, all of them alike. */
export const burstCount = /*#__PURE__*/ formula({
  symbol: 'n_burst',
  quantity: 'bursts on one charge',
  unit: '1',
  inputs: { Q_use: ['C', 100, 1e5], Q_burst: ['C', 0.1, 1e3] },
  expression: 'Q_use / Q_burst',
  compute: ({ Q_use, Q_burst }) => Q_use / Q_burst,
  source: 'ratio of two charges',
})
