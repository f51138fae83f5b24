import { formula } from '@ohmward/budget/formula'

const referred = 'definition of sensitivity'

/** Nonlinearity as a shift of the output: a share of the rated current. */
export const linearityShift = /*#__PURE__*/ formula({
  symbol: 'V_L',
  quantity: 'nonlinearity, as output of the sensor',
  unit: 'V',
  inputs: { S_0: ['V/A', 1e-3, 1], e_lin: ['1', 0, 0.2], I_fs: ['A', 0.1, 1e3] },
  expression: 'S_0 * e_lin * I_fs',
  compute: ({ S_0, e_lin, I_fs }) => S_0 * e_lin * I_fs,
  source: referred,
})

/** The zero shift after a peak as a shift of the output. */
export const hysteresisShift = /*#__PURE__*/ formula({
  symbol: 'V_h',
  quantity: 'hysteresis, as output of the sensor',
  unit: 'V',
  inputs: { S_0: ['V/A', 1e-3, 1], I_h: ['A', 0, 20] },
  expression: 'S_0 * I_h',
  compute: ({ S_0, I_h }) => S_0 * I_h,
  source: referred,
})

/** A steady field as a shift of the output. */
export const fieldShift = /*#__PURE__*/ formula({
  symbol: 'V_B',
  quantity: 'steady field, as output of the sensor',
  unit: 'V',
  inputs: { S_0: ['V/A', 1e-3, 1], I_B: ['A', 0, 20] },
  expression: 'S_0 * I_B',
  compute: ({ S_0, I_B }) => S_0 * I_B,
  source: referred,
})

/** A neighbour's field as a shift of the output. */
export const neighbourShift = /*#__PURE__*/ formula({
  symbol: 'V_nb',
  quantity: 'neighbouring current, as output of the sensor',
  unit: 'V',
  inputs: { S_0: ['V/A', 1e-3, 1], I_B: ['A', 0, 20] },
  expression: 'S_0 * I_B',
  compute: ({ S_0, I_B }) => S_0 * I_B,
  source: referred,
})

/** A further error that is stated as a current, as a shift of the output. */
export const furtherShift = /*#__PURE__*/ formula({
  symbol: 'V_addI',
  quantity: 'further error, as output of the sensor',
  unit: 'V',
  inputs: { S_0: ['V/A', 1e-3, 1], I_add: ['A', 0, 20] },
  expression: 'S_0 * I_add',
  compute: ({ S_0, I_add }) => S_0 * I_add,
  source: referred,
})

/**
 * What shifts the output beside zero and current, at the rated supply: nonlinearity, hysteresis, fields, noise, ageing of
 * the zero, and what else its data sheet states.
 */
export const outputShift = /*#__PURE__*/ formula({
  symbol: 'V_e',
  quantity: 'shift of the output, referred to the rated supply',
  unit: 'V',
  inputs: {
    V_L: ['V', -0.1, 0.1],
    V_h: ['V', -0.1, 0.1],
    V_B: ['V', -0.1, 0.1],
    V_nb: ['V', -0.1, 0.1],
    V_n: ['V', -0.1, 0.1],
    V_oa: ['V', -0.1, 0.1],
    V_add: ['V', -0.1, 0.1],
  },
  expression: 'V_L + V_h + V_B + V_nb + V_n + V_oa + V_add',
  compute: ({ V_L, V_h, V_B, V_nb, V_n, V_oa, V_add }) => V_L + V_h + V_B + V_nb + V_n + V_oa + V_add,
  source: 'superposition',
})
