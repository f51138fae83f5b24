import fc from 'fast-check'
import { lusolve } from 'mathjs'

/** Solves the nodal equations `A v = b` with a general-purpose library. */
export const solve = (A: number[][], b: number[]): number[] => (lusolve(A, b) as number[][]).map((row) => row[0]!)

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Inputs that both chains share, every one with an error of its own. */
export const shared = fc.record({
  V_exc: real(2.8, 5),
  V_amp: real(4, 5.5),
  V_ref: real(2.5, 5),
  T_d: real(-40, 60),
  R_x: real(0.05, 10),
  kappa: fc.constantFrom(0, 1),
  V_sat: real(0, 0.4),
  R_sw: real(0, 30),
  R_ref: real(20, 200),
  alpha_ref: real(-3e-4, 3e-4),
  R_thref: real(0, 300),
  d_m: real(0, 1),
  R_lead: real(0, 0.3),
  R_con: real(-0.02, 0.02),
  R_ds: real(0, 0.05),
  I_off: real(0, 1e-3),
  V_emf: real(-1e-4, 1e-4),
  I_o: real(0, 0.05),
  R_sh: real(0, 0.01),
  V_os: real(-5e-3, 5e-3),
  D_os: real(-1e-5, 1e-5),
  V_ps: real(3, 5),
  V_cms: real(0, 2.5),
  V_age: real(-1e-3, 1e-3),
  V_add: real(-1e-3, 1e-3),
  e_add: real(-0.01, 0.01),
  s_set: real(-0.01, 0.01),
  d_ref: real(-0.01, 0.01),
  d_G: real(-0.005, 0.005),
  m_ps: real(-1e-3, 1e-3),
  m_cm: real(-1e-3, 1e-3),
  V_n: real(-1e-5, 1e-5),
  I_b: real(-3e-7, 3e-7),
  I_os: real(-1e-7, 1e-7),
  alpha_G: real(-1e-4, 1e-4),
  V_oh: fc.constant(0),
  V_ol: fc.constant(0),
  I_pin: real(-1e-7, 1e-7),
  R_filt: real(0, 1e4),
  N_bits: fc.constantFrom(10, 12, 16),
  h_code: fc.constantFrom(0, 0.5),
  e_gain: real(-2e-3, 2e-3),
  e_offset: real(-3, 3),
  e_INL: real(-2, 2),
  e_q: real(-0.5, 0.5),
  e_n: real(-1, 1),
})

/** Constants with which the firmware inverts, each off from the truth. */
export const firmware = fc.record({
  R_refn: real(20, 200),
  R_swn: real(0, 30),
  R_leadn: real(0, 0.3),
  V_satn: real(0, 0.4),
  V_excn: real(2.8, 5),
  V_refn: real(2.5, 5),
})

export { real }
