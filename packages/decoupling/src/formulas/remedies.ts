import { formula } from '@ohmward/budget/formula'

const steady = 'steady sag, solved for the other side'

/** Largest constant current whose steady sag stays at a lowest rail voltage. */
export const allowedCurrent = /*#__PURE__*/ formula({
  symbol: 'I_allow',
  quantity: 'largest allowed step',
  unit: 'A',
  inputs: { V_rest: ['V', 3, 15], V_low: ['V', 1, 2.9], R_s: ['ohm', 0.005, 2] },
  expression: '(V_rest - V_low) / R_s',
  compute: ({ V_rest, V_low, R_s }) => (V_rest - V_low) / R_s,
  source: steady,
})

/** Smallest load resistor whose steady sag stays at a lowest rail voltage. */
export const allowedResistor = /*#__PURE__*/ formula({
  symbol: 'R_allow',
  quantity: 'smallest allowed load resistance',
  unit: 'ohm',
  inputs: { V_rest: ['V', 3, 15], V_low: ['V', 1, 2.9], R_s: ['ohm', 0.005, 2] },
  expression: 'R_s * V_low / (V_rest - V_low)',
  compute: ({ V_rest, V_low, R_s }) => (R_s * V_low) / (V_rest - V_low),
  source: steady,
})

/** Largest constant power whose steady sag stays at a lowest rail voltage, above half of the rest voltage. */
export const allowedPower = /*#__PURE__*/ formula({
  symbol: 'P_allow',
  quantity: 'largest allowed power',
  unit: 'W',
  inputs: { V_rest: ['V', 3, 15], V_low: ['V', 1, 2.9], R_s: ['ohm', 0.005, 2] },
  expression: 'V_low * (V_rest - V_low) / R_s',
  compute: ({ V_rest, V_low, R_s }) => (V_low * (V_rest - V_low)) / R_s,
  source: steady,
})

/** Largest source resistance with which a current's steady sag stays at a lowest rail voltage. */
export const allowedSource = /*#__PURE__*/ formula({
  symbol: 'R_source',
  quantity: 'largest allowed source resistance',
  unit: 'ohm',
  inputs: { V_rest: ['V', 3, 15], V_low: ['V', 1, 2.9], I_end: ['A', 0.01, 20] },
  expression: '(V_rest - V_low) / I_end',
  compute: ({ V_rest, V_low, I_end }) => (V_rest - V_low) / I_end,
  source: steady,
})

/** Largest duty with which the mean current's sag alone stays at a lowest rail voltage: the ripple comes on top of it. */
export const allowedDuty = /*#__PURE__*/ formula({
  symbol: 'D_allow',
  quantity: 'largest duty for the mean sag',
  unit: '1',
  inputs: { V_rest: ['V', 3, 15], V_low: ['V', 1, 2.9], R_s: ['ohm', 0.005, 2], I_step: ['A', 0.1, 20] },
  expression: '(V_rest - V_low) / (R_s * I_step)',
  compute: ({ V_rest, V_low, R_s, I_step }) => (V_rest - V_low) / (R_s * I_step),
  source: 'steady sag, solved for the other side, mean of the current D·I',
})

/** Highest series resistance of a capacitor with which the first drop of a current step stays within a droop. */
export const allowedSeriesResistance = /*#__PURE__*/ formula({
  symbol: 'ESR_allow',
  quantity: 'largest allowed series resistance',
  unit: 'ohm',
  inputs: { R_s: ['ohm', 0.05, 0.5], I_step: ['A', 2, 20], V_drop: ['V', 0.01, 0.09] },
  expression: 'R_s * V_drop / (I_step * R_s - V_drop)',
  compute: ({ R_s, I_step, V_drop }) => (R_s * V_drop) / (I_step * R_s - V_drop),
  source: 'first drop I·(R_s in parallel with ESR), solved for ESR',
})

/** Capacitance that keeps the droop of a constant-current burst within a limit; for a limit between the first drop and the steady sag. */
export const neededCapacitance = /*#__PURE__*/ formula({
  symbol: 'C_need',
  quantity: 'capacitance needed for a burst',
  unit: 'F',
  inputs: {
    t_on: ['s', 1e-6, 2],
    R_s: ['ohm', 0.1, 0.5],
    ESR: ['ohm', 0.001, 0.02],
    I_step: ['A', 2, 20],
    V_drop: ['V', 0.05, 0.19],
  },
  expression: 't_on / ((R_s + ESR) * log(I_step * R_s^2 / ((R_s + ESR) * (I_step * R_s - V_drop))))',
  compute: ({ t_on, R_s, ESR, I_step, V_drop }) =>
    t_on / ((R_s + ESR) * Math.log((I_step * R_s * R_s) / ((R_s + ESR) * (I_step * R_s - V_drop)))),
  source: 'first-order droop, solved for the capacitance',
})

/** How long a capacitor holds the droop of a constant-current step within a limit. */
export const holdTime = /*#__PURE__*/ formula({
  symbol: 't_hold',
  quantity: 'time until the droop reaches the limit',
  unit: 's',
  inputs: {
    tau_I: ['s', 1e-6, 1],
    R_s: ['ohm', 0.1, 0.5],
    ESR: ['ohm', 0.001, 0.02],
    I_step: ['A', 2, 20],
    V_drop: ['V', 0.05, 0.19],
  },
  expression: 'tau_I * log(I_step * R_s^2 / ((R_s + ESR) * (I_step * R_s - V_drop)))',
  compute: ({ tau_I, R_s, ESR, I_step, V_drop }) =>
    tau_I * Math.log((I_step * R_s * R_s) / ((R_s + ESR) * (I_step * R_s - V_drop))),
  source: 'first-order droop, solved for the time',
})
