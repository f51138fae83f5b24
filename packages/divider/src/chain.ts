import type { Values } from '@ohmward/budget'
import * as f from './formulas/index.js'

/** A chain's place of work: its inputs, and beside them the values that it computes, all by symbol. */
export interface Workspace {
  // conditions, load and loop
  V_exc: number
  V_amp: number
  V_ref: number
  T_d: number
  R_x: number
  kappa: number
  V_sat: number
  R_sw: number
  R_ref: number
  alpha_ref: number
  R_thref: number
  d_m: number
  R_lead: number
  R_con: number
  R_ds: number
  I_off: number
  V_emf: number
  I_o: number
  R_sh: number
  // amplifier
  V_os: number
  D_os: number
  V_ps: number
  m_ps: number
  m_cm: number
  V_n: number
  I_b: number
  I_os: number
  I_leak: number
  R_p: number
  R_f: number
  R_g: number
  alpha_G: number
  a_ol: number
  p_ped: number
  V_oh: number
  V_ol: number
  // converter and firmware
  I_pin: number
  R_filt: number
  N_bits: number
  h_code: number
  e_gain: number
  e_offset: number
  e_INL: number
  e_q: number
  e_n: number
  R_refn: number
  R_swn: number
  R_leadn: number
  V_satn: number
  V_excn: number
  V_refn: number
  G_n: number
  p_pedn: number
  // computed
  R_wire: number
  R_span: number
  I_cold: number
  P_ref: number
  T_ref: number
  R_warm: number
  R_out: number
  I_t: number
  V_stray: number
  V_x: number
  V_off: number
  R_fg: number
  V_bias: number
  V_in: number
  G: number
  G_a: number
  V_want: number
  V_hi: number
  V_out: number
  V_pin: number
  code_ideal: number
  code_c: number
  code_out: number
  r: number
  R_ind: number
}

const computed = [
  'R_wire',
  'R_span',
  'I_cold',
  'P_ref',
  'T_ref',
  'R_warm',
  'R_out',
  'I_t',
  'V_stray',
  'V_x',
  'V_off',
  'R_fg',
  'V_bias',
  'V_in',
  'G',
  'G_a',
  'V_want',
  'V_hi',
  'V_out',
  'V_pin',
  'code_ideal',
  'code_c',
  'code_out',
  'r',
  'R_ind',
] as const

type Computed = (typeof computed)[number]

/** What the chain of a load at ground needs, by symbol. */
export type ChainInputs = Values<Exclude<keyof Workspace, Computed>>

/** What the chain computes, by symbol. */
export type Reading = Values<Computed>

/**
 * Follows the reading from the true resistance to the indicated one, load at ground, in place: it reads the inputs of
 * `y` and leaves every value there. So a simulation allocates nothing.
 *
 * @returns the indicated resistance in ohms
 */
export function follow(y: Workspace): number {
  y.R_wire = f.wireResistance(y)
  y.R_span = f.spanResistance(y)
  y.I_cold = f.coldCurrent(y)
  y.P_ref = f.referenceDissipation(y)
  y.T_ref = f.referenceTemperature(y)
  y.R_warm = f.warmReference(y)
  y.R_out = f.outerResistance(y)
  y.I_t = f.testCurrent(y)
  y.V_stray = f.strayVoltage(y)
  y.V_x = f.senseVoltage(y)
  y.V_off = f.inputOffset(y)
  y.R_fg = f.feedbackParallel(y)
  y.V_bias = f.biasVoltage(y)
  y.V_in = f.inputVoltage(y)
  y.G = f.resistorGain(y)
  y.G_a = f.actualGain(y)
  y.V_want = f.wantedOutput(y)
  y.V_hi = f.highestOutput(y)
  y.V_out = f.limitedOutput(y)
  y.V_pin = f.pinVoltage(y)
  y.code_ideal = f.idealCode(y)
  y.code_c = f.convertedCode(y)
  y.code_out = f.clippedCode(y)
  y.r = f.indicatedRatio(y)
  y.R_ind = f.indicatedResistance(y)
  return y.R_ind
}

/** A workspace in which nothing stands yet. One literal, so that the chain always sees one shape. */
export const workspace = (): Workspace => ({
  V_exc: NaN,
  V_amp: NaN,
  V_ref: NaN,
  T_d: NaN,
  R_x: NaN,
  kappa: NaN,
  V_sat: NaN,
  R_sw: NaN,
  R_ref: NaN,
  alpha_ref: NaN,
  R_thref: NaN,
  d_m: NaN,
  R_lead: NaN,
  R_con: NaN,
  R_ds: NaN,
  I_off: NaN,
  V_emf: NaN,
  I_o: NaN,
  R_sh: NaN,
  V_os: NaN,
  D_os: NaN,
  V_ps: NaN,
  m_ps: NaN,
  m_cm: NaN,
  V_n: NaN,
  I_b: NaN,
  I_os: NaN,
  I_leak: NaN,
  R_p: NaN,
  R_f: NaN,
  R_g: NaN,
  alpha_G: NaN,
  a_ol: NaN,
  p_ped: NaN,
  V_oh: NaN,
  V_ol: NaN,
  I_pin: NaN,
  R_filt: NaN,
  N_bits: NaN,
  h_code: NaN,
  e_gain: NaN,
  e_offset: NaN,
  e_INL: NaN,
  e_q: NaN,
  e_n: NaN,
  R_refn: NaN,
  R_swn: NaN,
  R_leadn: NaN,
  V_satn: NaN,
  V_excn: NaN,
  V_refn: NaN,
  G_n: NaN,
  p_pedn: NaN,
  R_wire: NaN,
  R_span: NaN,
  I_cold: NaN,
  P_ref: NaN,
  T_ref: NaN,
  R_warm: NaN,
  R_out: NaN,
  I_t: NaN,
  V_stray: NaN,
  V_x: NaN,
  V_off: NaN,
  R_fg: NaN,
  V_bias: NaN,
  V_in: NaN,
  G: NaN,
  G_a: NaN,
  V_want: NaN,
  V_hi: NaN,
  V_out: NaN,
  V_pin: NaN,
  code_ideal: NaN,
  code_c: NaN,
  code_out: NaN,
  r: NaN,
  R_ind: NaN,
})

/** Every value on the way from the true resistance to the indicated one, load at ground. */
export function readingOf(x: ChainInputs): Reading {
  const y = Object.assign(workspace(), x)
  follow(y)
  return pick(y, computed)
}

/** The named values alone. */
export function pick<K extends string>(from: Readonly<Record<K, number>>, names: readonly K[]): Values<K> {
  return Object.fromEntries(names.map((name) => [name, from[name]])) as Values<K>
}

/** The formulas of {@link readingOf} in the order of calculation. */
export const chainFormulas = () => [
  f.wireResistance,
  f.spanResistance,
  f.coldCurrent,
  f.referenceDissipation,
  f.referenceTemperature,
  f.warmReference,
  f.outerResistance,
  f.testCurrent,
  f.strayVoltage,
  f.senseVoltage,
  f.inputOffset,
  f.feedbackParallel,
  f.biasVoltage,
  f.inputVoltage,
  f.resistorGain,
  f.actualGain,
  f.wantedOutput,
  f.highestOutput,
  f.limitedOutput,
  f.pinVoltage,
  f.idealCode,
  f.convertedCode,
  f.clippedCode,
  f.indicatedRatio,
  f.indicatedResistance,
]
