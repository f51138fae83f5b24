import { condition, type InputSet, noiseSpread } from '@ohmward/budget'
import { between, exact, type Input, plusMinus, type Spread } from '@ohmward/quantity'
import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'
import type { Behind } from './behind.js'
import type { Graininess } from './noise.js'
import { conductorRise, slowestOf, sourceAt } from './source.js'

const magnitude = (size: number): Spread => (size > 0 ? plusMinus(0, size) : exact(0))

/** Duty at a mean current, and the ripple about the mean as a share of the step; 1 and 0 where nothing is averaged. */
export function rippleOf(choice: ReadChoice, { tauLeast }: Behind, I_x: number): { D_x: number; w_x: Spread } {
  const { pwm, reading, current } = choice
  if (reading === 'on-window' || !pwm) return { D_x: 1, w_x: exact(0) }
  const largest = Math.max(Math.abs(current.from), Math.abs(current.to))
  const D_x = f.dutyOfMean({ I_x, I_max: largest, D_least: pwm.duty.from, D_most: pwm.duty.to })
  const x = { D_PWM: D_x, f_PWM: pwm.frequency, tau_f: tauLeast }
  // What hardly ripples may come out a last digit below nothing.
  const [up, down] = [Math.max(f.rippleAbove(x), 0), Math.max(f.rippleBelow(x), 0)]
  return { D_x, w_x: up + down > 0 ? between(-down, up, 0) : exact(0) }
}

/**
 * Every input of the chain by symbol, without current, the conditions `V_rail` and `T_d` (kelvin of the sensor above
 * 25 °C, from its coldest air to the hottest and its conductor's heat) among them. `V_s` and `V_ref0` are there only
 * where they aren't the rail: what is the rail is one variable. `V_sc` is there where the zero is read at another supply.
 */
export function inputsOf(choice: ReadChoice, behind: Behind): InputSet {
  const { sensor: s, converter: c, filter, divider, surroundings, calibration } = choice
  const S_0 = s.sensitivity.nominal
  // A side without a range has the slope of the other; where neither has one, nothing is stated.
  const above = s.supplyMaximum.nominal - s.ratedSupply.nominal
  const below = s.ratedSupply.nominal - s.supplyMinimum.nominal
  const moved = (share: Spread): Input => (above + below > 0 ? share : 0)
  const pretended = (B_f: number) =>
    f.fieldCurrent({ B_f, C_B: s.fieldCoupling.lower, CMFR_dB: s.fieldRejectionDb.lower })
  const { neighbourCurrent, neighbourDistance } = surroundings
  const B_nb = f.strayField({ mu_0: f.MU_0, I_nb: neighbourCurrent.upper, d_nb: neighbourDistance.lower })
  const I_h = f.remanence({ e_h: s.hysteresis.upper, I_pk: choice.peakCurrent })
  const V_h = magnitude(f.hysteresisShift({ S_0, I_h }))
  const V_B = magnitude(f.fieldShift({ S_0, I_B: pretended(surroundings.steadyField.upper) }))
  const own = (tag: string, grain: Graininess) => ({
    ['V_n' + tag]: noiseSpread(grain.sensorNoise),
    ['e_q' + tag]: magnitude(grain.halfWidth),
    ['e_n' + tag]: noiseSpread(grain.converterNoise),
    ['e_INL' + tag]: c.spreads.e_INL,
    ['n_miss' + tag]: magnitude(behind.missed),
  })
  return {
    V_rail: condition(choice.rail, choice.nominalRail),
    T_d: condition({ from: choice.ambient.from - 25, to: choice.ambient.to - 25 + conductorRise(choice, 'upper') }, 0),
    ...(choice.sensorSupply && { V_s: choice.sensorSupply }),
    ...(c.reference.kind === 'absolute' && { V_ref0: c.reference.V_ref0, TC_ref: c.reference.TC_ref }),
    I_x: 0,
    V_s0: s.ratedSupply.nominal,
    V_q0: s.zeroOutput,
    S_0: s.sensitivity,
    V_oe: s.zeroError,
    D_oe: s.zeroDrift,
    V_oa: s.zeroAgeing,
    V_above: above || below || 1,
    V_below: below || above || 1,
    m_q: moved(s.zeroSupplyError),
    e_S: s.sensitivityError,
    e_Sa: s.sensitivityAgeing,
    TC_S: s.sensitivityDrift,
    m_S: moved(s.sensitivitySupplyError),
    V_L: magnitude(f.linearityShift({ S_0, e_lin: s.nonlinearity.upper, I_fs: s.ratedCurrent.nominal })),
    V_h,
    V_B,
    V_nb: magnitude(f.neighbourShift({ S_0, I_B: pretended(B_nb) })),
    V_ol: s.lowOutput.upper,
    V_oh: s.highOutputDrop.upper,
    R_o: s.outputResistance,
    R_t: divider?.top ?? 0,
    R_b: divider?.bottom ?? 1,
    R_filt: filter.resistance,
    C_f: filter.capacitance,
    ...settlingOf(choice, behind),
    D_x: 1,
    w_x: 0,
    V_lk: magnitude(Math.abs(f.leakageDrop({ I_leak: c.spreads.I_leak.upper, R_src: sourceAt(choice, 'upper') }))),
    N_bits: c.bits,
    h_code: c.h_code,
    e_gain: c.spreads.e_gain,
    e_offset: c.spreads.e_offset,
    ...behind.nominal,
    ...own('', behind),
    ...(calibration.kind !== 'none' && { ...own('z', behind.zero), I_rest: calibration.residual }),
    ...(calibration.kind !== 'none' && { I_held: heldCurrent(choice, behind) }),
    ...(calibration.kind === 'zero' && zeroConditions(choice, V_B, V_h)),
    ...(calibration.kind === 'zero each time' && calibration.rail && { V_railc: calibration.rail }),
    ...(calibration.supply && { V_sc: calibration.supply }),
  }
}

/** A sensor may be so much faster than its data sheet has it at least. */
const FASTEST = 1e-3

/**
 * Time from the step to the sample, least where the edge is longest, and time constant of the sensor: its data sheet states
 * the slowest, and one that is faster misses less.
 */
function settlingOf(choice: ReadChoice, { wait }: Behind): InputSet {
  const { edge } = choice.timing
  const after = (t_edge: number) => f.settlingLeft({ t_wait: wait, t_edge })
  const { tau_s } = slowestOf(choice)
  const t_set = between(after(edge.upper), after(edge.lower), after(edge.upper))
  return { t_set, tau_s: choice.reading === 'averaged' ? tau_s : between(FASTEST * tau_s, tau_s, tau_s) }
}

/** What a zero's reading still holds of the current before it, at most of a peak; nothing of one that was read at rest. */
function heldCurrent({ current: { from, to }, peakCurrent }: ReadChoice, { fresh }: Behind): Spread {
  const I_pk = Math.max(Math.abs(from), Math.abs(to), peakCurrent)
  const of = (I_bef: number) => (fresh ? f.heldCurrent({ s_z: fresh.held, I_bef }) : 0)
  return between(from < 0 ? of(-I_pk) : 0, to > 0 ? of(I_pk) : 0, 0)
}

/** The conditions of a zero that was read once. Where current flows both ways, it may stand after a peak of the other. */
function zeroConditions({ calibration, nominalRail, current }: ReadChoice, V_Bz: Spread, V_h: Spread): InputSet {
  const room = calibration.atCelsius
  const T_c = { ...room, nominal: room.nominal - 25, lower: room.lower - 25, upper: room.upper - 25 }
  const both = current.from < 0 && current.to > 0
  return { T_c, V_railc: calibration.rail ?? nominalRail, V_Bz, V_hz: both ? V_h : exact(0) }
}
