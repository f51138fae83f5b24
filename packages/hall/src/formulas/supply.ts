import { formula } from '@ohmward/budget/formula'

export { ownReference, referenceOnRail } from '@ohmward/adc/formulas'

/** Supply of a sensor on the rail: one variable with all that is the rail. */
export const sensorOnRail = /*#__PURE__*/ formula({
  symbol: 'V_s',
  quantity: 'supply of the sensor, the rail',
  unit: 'V',
  inputs: { V_rail: ['V', 0.5, 60] },
  expression: 'V_rail',
  compute: (x) => x.V_rail,
  source: 'one node',
})

/**
 * How far the supply stands from the rated one, as a share of the way to that end of the rated range: a data sheet states
 * its ratiometry error for either end, so each side has its slope.
 */
export const supplyShift = /*#__PURE__*/ formula({
  symbol: 'x_s',
  quantity: 'supply, from the rated one to the end of its range',
  unit: '1',
  inputs: { V_s: ['V', 1, 30], V_s0: ['V', 1, 30], V_below: ['V', 0.1, 10], V_above: ['V', 0.1, 10] },
  expression: '(V_s - V_s0) / (V_s < V_s0 ? V_below : V_above)',
  compute: ({ V_s, V_s0, V_below, V_above }) => (V_s - V_s0) / (V_s < V_s0 ? V_below : V_above),
  source: 'data sheet: ratiometry error between the ends of the rated supply, taken as straight',
  smooth: false,
})

/** Supply over the supply at which the data sheet states zero and sensitivity. */
export const supplyRatio = /*#__PURE__*/ formula({
  symbol: 'r_s',
  quantity: 'supply over rated supply',
  unit: '1',
  inputs: { V_s: ['V', 1, 30], V_s0: ['V', 1, 30] },
  expression: 'V_s / V_s0',
  compute: ({ V_s, V_s0 }) => V_s / V_s0,
  source: 'definition',
})
