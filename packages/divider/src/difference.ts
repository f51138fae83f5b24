import type { Values } from '@ohmward/budget'
import { pick, type Workspace } from './chain.js'
import * as f from './formulas/index.js'

/** The place of work of the difference chain: four resistors instead of two, no pedestal, no clamp in the sense path. */
export interface DifferenceWorkspace
  extends Omit<
    Workspace,
    'I_leak' | 'R_p' | 'R_f' | 'R_g' | 'G_n' | 'p_ped' | 'p_pedn' | 'R_fg' | 'V_in' | 'G' | 'G_a'
  > {
  R_a: number
  R_b: number
  R_c: number
  R_d: number
  alpha_P: number
  R_cn: number
  g_n: number
  beta: number
  V_m: number
  V_cm: number
  V_err: number
  g: number
}

const computed = [
  'R_wire',
  'R_span',
  'I_cold',
  'P_ref',
  'T_ref',
  'R_warm',
  'R_out',
  'beta',
  'V_m',
  'I_t',
  'V_stray',
  'V_x',
  'V_cm',
  'V_off',
  'V_bias',
  'V_err',
  'g',
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

/** What the chain of a load at the rail needs, by symbol. */
export type DifferenceInputs = Values<Exclude<keyof DifferenceWorkspace, Computed>>

/** What the difference chain computes, by symbol. */
export type DifferenceReading = Values<Computed>

/** Follows the reading from the true resistance to the indicated one, load at the rail, in place. */
export function followAtRail(y: DifferenceWorkspace): number {
  y.R_wire = f.wireResistance(y)
  y.R_span = f.spanResistance(y)
  y.I_cold = f.coldCurrent(y)
  y.P_ref = f.referenceDissipation(y)
  y.T_ref = f.referenceTemperature(y)
  y.R_warm = f.warmReference(y)
  y.R_out = f.outerResistance(y)
  y.beta = f.inputShare(y)
  y.V_m = f.lowerVoltage(y)
  y.I_t = f.currentFromRail(y)
  y.V_stray = f.strayVoltage(y)
  y.V_x = f.senseVoltageAtRail(y)
  y.V_cm = f.commonMode(y)
  y.V_off = f.inputOffset(y)
  y.V_bias = f.differenceBias(y)
  y.V_err = f.differenceError(y)
  y.g = f.differenceGain(y)
  y.V_want = f.differenceOutput(y)
  y.V_hi = f.highestOutput(y)
  y.V_out = f.limitedOutput(y)
  y.V_pin = f.pinVoltage(y)
  y.code_ideal = f.idealCode(y)
  y.code_c = f.convertedCode(y)
  y.code_out = f.clippedCode(y)
  y.r = f.indicatedShare(y)
  y.R_ind = f.indicatedFromRail(y)
  return y.R_ind
}

/** A workspace in which nothing stands yet. One literal, so that the chain always sees one shape. */
export const differenceWorkspace = (): DifferenceWorkspace => ({
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
  R_a: NaN,
  R_b: NaN,
  R_c: NaN,
  R_d: NaN,
  alpha_P: NaN,
  alpha_G: NaN,
  a_ol: NaN,
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
  R_cn: NaN,
  g_n: NaN,
  R_wire: NaN,
  R_span: NaN,
  I_cold: NaN,
  P_ref: NaN,
  T_ref: NaN,
  R_warm: NaN,
  R_out: NaN,
  beta: NaN,
  V_m: NaN,
  I_t: NaN,
  V_stray: NaN,
  V_x: NaN,
  V_cm: NaN,
  V_off: NaN,
  V_bias: NaN,
  V_err: NaN,
  g: NaN,
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

/** Every value on the way from the true resistance to the indicated one, load at the rail. */
export function readingAtRail(x: DifferenceInputs): DifferenceReading {
  const y = Object.assign(differenceWorkspace(), x)
  followAtRail(y)
  return pick(y, computed)
}

/** The formulas of {@link readingAtRail} in the order of calculation. */
export const differenceFormulas = () => [
  f.wireResistance,
  f.spanResistance,
  f.coldCurrent,
  f.referenceDissipation,
  f.referenceTemperature,
  f.warmReference,
  f.outerResistance,
  f.inputShare,
  f.lowerVoltage,
  f.currentFromRail,
  f.strayVoltage,
  f.senseVoltageAtRail,
  f.commonMode,
  f.inputOffset,
  f.differenceBias,
  f.differenceError,
  f.differenceGain,
  f.differenceOutput,
  f.highestOutput,
  f.limitedOutput,
  f.pinVoltage,
  f.idealCode,
  f.convertedCode,
  f.clippedCode,
  f.indicatedShare,
  f.indicatedFromRail,
]
