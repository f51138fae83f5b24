import { formula } from '@ohmward/budget/formula'

/** Wires, traces and contacts in series with the load; contacts move from one day to the next. */
export const wireResistance = /*#__PURE__*/ formula({
  symbol: 'R_wire',
  quantity: 'leads, contacts',
  unit: 'ohm',
  inputs: { R_lead: ['ohm', 0, 10], R_con: ['ohm', -0.1, 0.1] },
  expression: 'R_lead + R_con',
  compute: (x) => x.R_lead + x.R_con,
  source: 'Kirchhoff',
})

/** Resistance between the two sense points: the load, with two wires also its leads, and a switch if one stands inside. */
export const spanResistance = /*#__PURE__*/ formula({
  symbol: 'R_span',
  quantity: 'resistance of the span',
  unit: 'ohm',
  inputs: { R_x: ['ohm', 0, 100], kappa: ['1', 0, 1], R_wire: ['ohm', 0, 10], R_ds: ['ohm', 0, 1] },
  expression: 'R_x + kappa * R_wire + R_ds',
  compute: (x) => x.R_x + x.kappa * x.R_wire + x.R_ds,
  source: 'Kirchhoff',
})

/**
 * Resistance between the sense point and the amplifier's ground, load at ground: the span, and the ground that the test
 * current shares with others. Nothing tells it from load.
 */
export const groundedSpan = /*#__PURE__*/ formula({
  symbol: 'R_span',
  quantity: 'resistance of the span, shared ground included',
  unit: 'ohm',
  inputs: {
    R_x: ['ohm', 0, 100],
    kappa: ['1', 0, 1],
    R_wire: ['ohm', 0, 10],
    R_ds: ['ohm', 0, 1],
    R_sh: ['ohm', 0, 0.1],
  },
  expression: 'R_x + kappa * R_wire + R_ds + R_sh',
  compute: (x) => x.R_x + x.kappa * x.R_wire + x.R_ds + x.R_sh,
  source: 'Kirchhoff',
})

/** Test current with a reference resistor at 25 °C, from which its self-heating is found. */
export const coldCurrent = /*#__PURE__*/ formula({
  symbol: 'I_cold',
  quantity: 'test current, reference resistor cold',
  unit: 'A',
  inputs: {
    V_exc: ['V', 0.5, 60],
    V_sat: ['V', 0, 0.4],
    R_ref: ['ohm', 1, 1e5],
    R_sw: ['ohm', 0, 100],
    R_wire: ['ohm', 0, 10],
    kappa: ['1', 0, 1],
    R_span: ['ohm', 0, 100],
  },
  expression: '(V_exc - V_sat) / (R_ref + R_sw + (1 - kappa) * R_wire + R_span)',
  compute: (x) => (x.V_exc - x.V_sat) / (x.R_ref + x.R_sw + (1 - x.kappa) * x.R_wire + x.R_span),
  source: 'Kirchhoff',
})

/** Dissipation of the reference resistor while the test current flows. */
export const referenceDissipation = /*#__PURE__*/ formula({
  symbol: 'P_ref',
  quantity: 'dissipation of the reference resistor',
  unit: 'W',
  inputs: { I_cold: ['A', 0, 10], R_ref: ['ohm', 1, 1e5] },
  expression: 'I_cold^2 * R_ref',
  compute: (x) => x.I_cold * x.I_cold * x.R_ref,
  source: 'Joule',
})

/** Temperature of the reference resistor, above 25 °C: the surroundings' and its own heating, at the measuring duty. */
export const referenceTemperature = /*#__PURE__*/ formula({
  symbol: 'T_ref',
  quantity: 'reference resistor above 25 °C',
  unit: 'K',
  inputs: { T_d: ['K', -65, 100], R_thref: ['K/W', 0, 500], d_m: ['1', 0, 1], P_ref: ['W', 0, 5] },
  expression: 'T_d + R_thref * d_m * P_ref',
  compute: (x) => x.T_d + x.R_thref * x.d_m * x.P_ref,
  source: 'thermal resistance',
})

/** The reference resistor at its own temperature and age. However hot it is made, a tenth of it is left. */
export const warmReference = /*#__PURE__*/ formula({
  symbol: 'R_warm',
  quantity: 'reference resistor, warm',
  unit: 'ohm',
  inputs: { R_ref: ['ohm', 1, 1e5], alpha_ref: ['1/K', -5e-4, 5e-4], T_ref: ['K', -65, 200], d_ref: ['1', -0.1, 0.1] },
  expression: 'R_ref * max(1 + alpha_ref * T_ref + d_ref, 0.1)',
  compute: (x) => x.R_ref * Math.max(1 + x.alpha_ref * x.T_ref + x.d_ref, 0.1),
  source: 'temperature coefficient; data sheet: change over life',
  smooth: false,
})

/** Everything in the loop that is not between the sense points. */
export const outerResistance = /*#__PURE__*/ formula({
  symbol: 'R_out',
  quantity: 'resistance outside the span',
  unit: 'ohm',
  inputs: { R_warm: ['ohm', 1, 1e5], R_sw: ['ohm', 0, 100], kappa: ['1', 0, 1], R_wire: ['ohm', 0, 10] },
  expression: 'R_warm + R_sw + (1 - kappa) * R_wire',
  compute: (x) => x.R_warm + x.R_sw + (1 - x.kappa) * x.R_wire,
  source: 'Kirchhoff',
})

/**
 * Test current from the excitation. What the power switch leaks flows in the load beside it, and what others put through
 * the shared ground lifts that: both leave less for it.
 */
export const testCurrent = /*#__PURE__*/ formula({
  symbol: 'I_t',
  quantity: 'test current',
  unit: 'A',
  inputs: {
    V_exc: ['V', 2, 60],
    V_sat: ['V', 0, 0.4],
    I_off: ['A', 0, 1e-2],
    I_o: ['A', 0, 1],
    R_sh: ['ohm', 0, 0.1],
    R_span: ['ohm', 0, 100],
    R_out: ['ohm', 1, 1e5],
  },
  expression: '(V_exc - V_sat - I_off * R_span - I_o * R_sh) / (R_out + R_span)',
  compute: (x) => (x.V_exc - x.V_sat - x.I_off * x.R_span - x.I_o * x.R_sh) / (x.R_out + x.R_span),
  source: 'Kirchhoff',
})

/** Thermoelectric voltage of the sense junctions at their temperature difference. */
export const junctionVoltage = /*#__PURE__*/ formula({
  symbol: 'V_emf',
  quantity: 'thermoelectric voltage',
  unit: 'V',
  inputs: { S_emf: ['V/K', -1e-4, 1e-4], T_j: ['K', 0, 100] },
  expression: 'S_emf * T_j',
  compute: (x) => x.S_emf * x.T_j,
  source: 'Seebeck',
})

/** Voltages in series with the span that no test current makes: thermoelectric, and what others drop in a shared ground. */
export const strayVoltage = /*#__PURE__*/ formula({
  symbol: 'V_stray',
  quantity: 'stray voltage',
  unit: 'V',
  inputs: { V_emf: ['V', -1e-2, 1e-2], I_o: ['A', 0, 1], R_sh: ['ohm', 0, 0.1] },
  expression: 'V_emf + I_o * R_sh',
  compute: (x) => x.V_emf + x.I_o * x.R_sh,
  source: 'Kirchhoff',
})

/** Sense voltage with the load at ground: the test current and the off-state leakage of the power switch both flow in it. */
export const senseVoltage = /*#__PURE__*/ formula({
  symbol: 'V_x',
  quantity: 'sense voltage',
  unit: 'V',
  inputs: {
    I_t: ['A', 0, 10],
    I_off: ['A', 0, 1e-2],
    R_span: ['ohm', 0, 100],
    V_stray: ['V', -1e-2, 1e-2],
  },
  expression: '(I_t + I_off) * R_span + V_stray',
  compute: (x) => (x.I_t + x.I_off) * x.R_span + x.V_stray,
  source: 'Kirchhoff',
})
