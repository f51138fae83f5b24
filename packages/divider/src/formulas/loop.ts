import { formula } from '@ohmward/budget'
import {
  alpha_ref,
  d_m,
  I_cold,
  I_o,
  I_off,
  I_t,
  kappa,
  P_ref,
  R_con,
  R_ds,
  R_lead,
  R_out,
  R_ref,
  R_sh,
  R_span,
  R_sw,
  R_thref,
  R_warm,
  R_wire,
  R_x,
  S_emf,
  T_d,
  T_j,
  T_ref,
  V_emf,
  V_exc,
  V_sat,
  V_stray,
} from './symbols.js'

/** Wires, traces and contacts in series with the load; contacts move from one day to the next. */
export const wireResistance = /*#__PURE__*/ formula({
  symbol: 'R_wire',
  quantity: 'leads and contacts in series with the load',
  unit: 'ohm',
  inputs: { R_lead, R_con },
  expression: 'R_lead + R_con',
  compute: ({ R_lead, R_con }) => R_lead + R_con,
  source: 'resistors in series',
})

/** Resistance between the two sense points: the load, with two wires also its leads, and a switch if one stands inside. */
export const spanResistance = /*#__PURE__*/ formula({
  symbol: 'R_span',
  quantity: 'resistance between the sense points',
  unit: 'ohm',
  inputs: { R_x, kappa, R_wire, R_ds },
  expression: 'R_x + kappa * R_wire + R_ds',
  compute: ({ R_x, kappa, R_wire, R_ds }) => R_x + kappa * R_wire + R_ds,
  source: 'Kirchhoff, voltage law',
})

/** Test current with a reference resistor at 25 °C, from which its self-heating is found. */
export const coldCurrent = /*#__PURE__*/ formula({
  symbol: 'I_cold',
  quantity: 'test current, reference resistor still cold',
  unit: 'A',
  inputs: {
    V_exc,
    V_sat,
    R_ref,
    R_sw,
    R_wire,
    kappa,
    R_span,
  },
  expression: '(V_exc - V_sat) / (R_ref + R_sw + (1 - kappa) * R_wire + R_span)',
  compute: ({ V_exc, V_sat, R_ref, R_sw, R_wire, kappa, R_span }) =>
    (V_exc - V_sat) / (R_ref + R_sw + (1 - kappa) * R_wire + R_span),
  source: 'Ohm; Kirchhoff, voltage law',
})

/** Dissipation of the reference resistor while the test current flows. */
export const referenceDissipation = /*#__PURE__*/ formula({
  symbol: 'P_ref',
  quantity: 'dissipation of the reference resistor while measuring',
  unit: 'W',
  inputs: { I_cold, R_ref },
  expression: 'I_cold^2 * R_ref',
  compute: ({ I_cold, R_ref }) => I_cold * I_cold * R_ref,
  source: 'Joule',
})

/** Temperature of the reference resistor, above 25 °C: the surroundings' and its own heating, at the measuring duty. */
export const referenceTemperature = /*#__PURE__*/ formula({
  symbol: 'T_ref',
  quantity: 'temperature of the reference resistor above 25 °C',
  unit: 'K',
  inputs: { T_d, R_thref, d_m, P_ref },
  expression: 'T_d + R_thref * d_m * P_ref',
  compute: ({ T_d, R_thref, d_m, P_ref }) => T_d + R_thref * d_m * P_ref,
  source: 'thermal resistance, steady state',
})

/** The reference resistor at its own temperature. */
export const warmReference = /*#__PURE__*/ formula({
  symbol: 'R_warm',
  quantity: 'reference resistor at its own temperature',
  unit: 'ohm',
  inputs: { R_ref, alpha_ref, T_ref },
  expression: 'R_ref * (1 + alpha_ref * T_ref)',
  compute: ({ R_ref, alpha_ref, T_ref }) => R_ref * (1 + alpha_ref * T_ref),
  source: 'temperature coefficient of resistance, linear about 25 °C',
})

/** Everything in the loop that is not between the sense points. */
export const outerResistance = /*#__PURE__*/ formula({
  symbol: 'R_out',
  quantity: 'resistance of the loop outside the sense points',
  unit: 'ohm',
  inputs: { R_warm, R_sw, kappa, R_wire },
  expression: 'R_warm + R_sw + (1 - kappa) * R_wire',
  compute: ({ R_warm, R_sw, kappa, R_wire }) => R_warm + R_sw + (1 - kappa) * R_wire,
  source: 'Kirchhoff, voltage law',
})

/** Test current through the load. */
export const testCurrent = /*#__PURE__*/ formula({
  symbol: 'I_t',
  quantity: 'test current',
  unit: 'A',
  inputs: { V_exc, V_sat, R_out, R_span },
  expression: '(V_exc - V_sat) / (R_out + R_span)',
  compute: ({ V_exc, V_sat, R_out, R_span }) => (V_exc - V_sat) / (R_out + R_span),
  source: 'Ohm; Kirchhoff, voltage law',
})

/** Thermoelectric voltage of the sense junctions at their temperature difference. */
export const junctionVoltage = /*#__PURE__*/ formula({
  symbol: 'V_emf',
  quantity: 'thermoelectric voltage of the sense junctions',
  unit: 'V',
  inputs: { S_emf, T_j },
  expression: 'S_emf * T_j',
  compute: ({ S_emf, T_j }) => S_emf * T_j,
  source: 'Seebeck',
})

/** Voltages in series with the span that no test current makes: thermoelectric, and what others drop in a shared ground. */
export const strayVoltage = /*#__PURE__*/ formula({
  symbol: 'V_stray',
  quantity: 'stray voltage in the sense path',
  unit: 'V',
  inputs: { V_emf, I_o, R_sh },
  expression: 'V_emf + I_o * R_sh',
  compute: ({ V_emf, I_o, R_sh }) => V_emf + I_o * R_sh,
  source: 'Kirchhoff, voltage law; Ohm',
})

/** Sense voltage with the load at ground: the test current and the off-state leakage of the power switch both flow in it. */
export const senseVoltage = /*#__PURE__*/ formula({
  symbol: 'V_x',
  quantity: 'sense voltage',
  unit: 'V',
  inputs: {
    I_t,
    I_off,
    R_span,
    V_stray,
  },
  expression: '(I_t + I_off) * R_span + V_stray',
  compute: ({ I_t, I_off, R_span, V_stray }) => (I_t + I_off) * R_span + V_stray,
  source: 'Ohm; Kirchhoff, current law',
})
