import { formula } from '@ohmward/budget/formula'

/** Largest sum of samples: what the accumulator must hold before anything is divided. Pitfall F04. */
export const largestSum = /*#__PURE__*/ formula({
  symbol: 'sum_max',
  quantity: 'largest sum of samples',
  unit: '1',
  inputs: { M_avg: ['1', 1, 65536], code_max: ['1', 1, 65535] },
  expression: 'M_avg * code_max',
  compute: ({ M_avg, code_max }) => M_avg * code_max,
  source: 'arithmetic',
})

/** Largest whole multiplier whose product with every code stays inside an unsigned word of W bits. Pitfall F01. */
export const largestMultiplier = /*#__PURE__*/ formula({
  symbol: 'K_max',
  quantity: 'largest multiplier',
  unit: '1',
  inputs: { W_bits: ['1', 8, 32], code_max: ['1', 1, 65535] },
  expression: 'floor((2^W_bits - 1) / code_max)',
  compute: ({ W_bits, code_max }) => Math.floor((2 ** W_bits - 1) / code_max),
  source: 'unsigned word, ISO C99 6.2.5',
  smooth: false,
})

/** Share of the result that a whole quotient drops when it comes before the multiplication. Pitfall F02. */
export const divisionLoss = /*#__PURE__*/ formula({
  symbol: 'e_floor',
  quantity: 'share lost by dividing first',
  unit: '1',
  inputs: { K_num: ['1', 1, 1e6], K_den: ['1', 1, 65536] },
  expression: '1 - floor(K_num / K_den) / (K_num / K_den)',
  compute: ({ K_num, K_den }) => 1 - Math.floor(K_num / K_den) / (K_num / K_den),
  source: 'ISO C99 6.5.5: an integer quotient drops its fraction',
  smooth: false,
})

/** F01, F04: what is left of an unsigned word of W bits at the largest intermediate value. */
export const wordSlack = /*#__PURE__*/ formula({
  symbol: 's_word',
  quantity: 'headroom of the word',
  unit: '1',
  inputs: { W_bits: ['1', 8, 32], acc_max: ['1', 0, 4294967295] },
  expression: '2^W_bits - 1 - acc_max',
  compute: ({ W_bits, acc_max }) => 2 ** W_bits - 1 - acc_max,
  source: 'unsigned word, ISO C99 6.2.5',
})
