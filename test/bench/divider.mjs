/**
 * The divider's own chain for the benchmarks, and the same written by hand as one loop: the demo's parts, ten inputs of
 * which vary, none of them a real part.
 */
import { exampleConverters } from '../../packages/adc/dist/index.js'
import { dividerModel, exampleAmplifiers } from '../../packages/divider/dist/index.js'
import { normal, select, uniform } from './by-hand.mjs'

export const choice = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '3 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  excitationSwitch: { resistance: '1 ohm ±50 %', currentLimit: '0.2 A' },
  amplifier: exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
}
export const conditions = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

/** The ten inputs that vary, in the loop by hand as well. */
const random = ['R_sw', 'R_ref', 'alpha_ref', 'R_f', 'R_g', 'alpha_G', 'V_os', 'e_offset', 'e_INL', 'e_n']

const own = dividerModel(choice, conditions)
const nominal = (input) => (typeof input === 'number' ? input : input.nominal)
export const inputs = Object.fromEntries(
  Object.entries({ ...own.inputs, V_rail: 3, T_d: 25 }).map(([name, input]) => [
    name,
    random.includes(name) ? input : nominal(input),
  ]),
)
export const { model, row, fill } = own
export const measured = `the divider's chain, ${Object.keys(inputs).length} inputs, ${random.length} random, 1 output, 1 thread`

const spread = (name) => [inputs[name].lower, inputs[name].upper - inputs[name].lower]

/** Mean, standard deviation and 95 % interval of the divider's chain. */
export function dividerByHand(trials) {
  const {
    V_rail,
    T_d,
    V_sat,
    R_x,
    kappa,
    R_lead,
    R_con,
    R_ds,
    R_thref,
    d_m,
    I_off,
    V_emf,
    I_o,
    R_sh,
    D_os,
    V_age,
    V_ps,
    V_cms,
    m_ps,
    m_cm,
    V_n,
    I_b,
    I_os,
    I_leak,
    R_p,
    d_ref,
    d_G,
    a_ol,
    p_ped,
    V_oh,
    V_ol,
    I_pin,
    R_filt,
    s_set,
    N_bits,
    h_code,
    e_gain,
    e_q,
    R_refn,
    R_swn,
    R_leadn,
    V_satn,
    V_excn,
    V_refn,
    G_n,
    p_pedn,
  } = inputs
  const [[R_sw0, R_sw1], [R_ref0, R_ref1], [alpha_ref0, alpha_ref1], [R_f0, R_f1], [R_g0, R_g1], [alpha_G0, alpha_G1]] =
    ['R_sw', 'R_ref', 'alpha_ref', 'R_f', 'R_g', 'alpha_G'].map(spread)
  const [[V_os0, V_os1], [e_offset0, e_offset1], [e_INL0, e_INL1]] = ['V_os', 'e_offset', 'e_INL'].map(spread)
  const noise = (inputs.e_n.upper - inputs.e_n.lower) / 6
  const full = 2 ** N_bits
  const values = new Float64Array(trials)
  let sum = 0
  for (let n = 0; n < trials; n++) {
    const R_sw = R_sw0 + R_sw1 * uniform()
    const R_ref = R_ref0 + R_ref1 * uniform()
    const alpha_ref = alpha_ref0 + alpha_ref1 * uniform()
    const R_f = R_f0 + R_f1 * uniform()
    const R_g = R_g0 + R_g1 * uniform()
    const alpha_G = alpha_G0 + alpha_G1 * uniform()
    const V_os = V_os0 + V_os1 * uniform()
    const e_offset = e_offset0 + e_offset1 * uniform()
    const e_INL = e_INL0 + e_INL1 * uniform()
    const e_n = noise * normal()
    const R_wire = R_lead + R_con
    const R_span = R_x + kappa * R_wire + R_ds + R_sh
    const outer = R_sw + (1 - kappa) * R_wire
    const I_cold = (V_rail - V_sat) / (R_ref + outer + R_span)
    const T_ref = T_d + R_thref * d_m * I_cold * I_cold * R_ref
    const R_out = R_ref * Math.max(1 + alpha_ref * T_ref + d_ref, 0.1) + outer
    const I_t = (V_rail - V_sat - I_off * R_span - I_o * R_sh) / (R_out + R_span)
    const V_x = (I_t + I_off) * R_span + V_emf + I_o * R_sh
    const V_off = V_os + D_os * T_d + (V_rail - V_ps) * m_ps + V_age
    const R_fg = (R_f * R_g) / (R_f + R_g)
    const V_bias = I_b * (R_p - R_fg) + (I_os / 2) * (R_p + R_fg) + I_leak * R_p
    const V_in = V_x + (V_x - V_cms) * m_cm + V_off + V_bias + V_n
    const G = 1 + (R_f / R_g) * (1 + alpha_G * T_d + d_G)
    const V_want = (G / (1 + G * a_ol)) * V_in + p_ped * V_rail
    const V_out = Math.max(V_ol, Math.min(V_want, V_rail - V_oh))
    const V_pin = V_out + s_set * V_rail - I_pin * R_filt
    const code = (V_pin / V_rail) * full * (1 + e_gain) + e_offset + e_INL + e_q + e_n
    const clipped = Math.min(Math.max(code, h_code), full - 1 + h_code)
    const r = ((clipped / full - p_pedn) * V_refn) / (G_n * (V_excn - V_satn))
    const value = ((R_refn + R_swn + (1 - kappa) * R_leadn) * r) / Math.max(1 - r, 0.001) - kappa * R_leadn
    values[n] = value
    sum += value
  }
  const mean = sum / trials
  let squares = 0
  for (let n = 0; n < trials; n++) squares += (values[n] - mean) ** 2
  const u = Math.sqrt(squares / (trials - 1))
  return { mean, u, interval: [select(values, Math.round(0.025 * trials)), select(values, Math.round(0.975 * trials))] }
}
