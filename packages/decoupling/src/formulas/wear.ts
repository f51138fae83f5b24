import { formula } from '@ohmward/budget/formula'

const share = ['1', 0, 1] as const
const straight = 'common practice: what the end of life takes is lost in a straight line from new'

/** How much of the age to cover has passed: at the oldest, everything that an end of life takes is lost. */
export const wornShare = /*#__PURE__*/ formula({
  symbol: 'x_age',
  quantity: 'share of the age to cover',
  unit: '1',
  inputs: { Y_age: ['1', 0, 10], Y_end: ['1', 0.5, 20] },
  expression: 'Y_age / Y_end',
  compute: ({ Y_age, Y_end }) => Y_age / Y_end,
  source: 'definition',
})

/** Hours since the last heating, from the reference hour on. */
export const hoursOfAge = /*#__PURE__*/ formula({
  symbol: 't_age',
  quantity: 'hours since the last heating',
  unit: 'hour',
  inputs: { Y_age: ['1', 0, 10], t_year: ['hour', 8760, 8784], t_ref: ['hour', 1, 9] },
  expression: 'max(t_ref, Y_age * t_year)',
  compute: ({ Y_age, t_year, t_ref }) => Math.max(t_ref, Y_age * t_year),
  source: 'definition: ageing counts from the reference hour',
  smooth: false,
})

/** What is left of a class II ceramic's capacitance after a time: linear in decades of time. */
export const ageing = /*#__PURE__*/ formula({
  symbol: 'k_dec',
  quantity: 'capacitance left by ageing',
  unit: '1',
  inputs: { a_dec: ['1', 0, 0.07], t_age: ['hour', 10, 1e5], t_ref: ['hour', 1, 9] },
  expression: '1 - a_dec * log(t_age / t_ref) / log(10)',
  compute: ({ a_dec, t_age, t_ref }) => 1 - (a_dec * Math.log(t_age / t_ref)) / Math.LN10,
  source:
    'common practice for class II ceramics: a share per decade of hours since the last heating, linear in decades',
})

/** What ageing and drying out leave of a capacitance. */
export const agedCapacitance = /*#__PURE__*/ formula({
  symbol: 'k_life',
  quantity: 'capacitance left by age',
  unit: '1',
  inputs: { k_dec: ['1', 0.6, 1], k_worn: ['1', 0.5, 1], x_age: share },
  expression: 'k_dec * (1 - (1 - k_worn) * x_age)',
  compute: ({ k_dec, k_worn, x_age }) => k_dec * (1 - (1 - k_worn) * x_age),
  source: straight,
})

/** By how much a series resistance has grown, cold and dried out. */
export const grownResistance = /*#__PURE__*/ formula({
  symbol: 'k_cold',
  quantity: 'growth of the series resistance by cold and age',
  unit: '1',
  inputs: { k_new: ['1', 1, 30], k_dry: ['1', 1, 5], x_age: share },
  expression: 'k_new * (1 + (k_dry - 1) * x_age)',
  compute: ({ k_new, k_dry, x_age }) => k_new * (1 + (k_dry - 1) * x_age),
  source: straight,
})
