import { averaged } from '@ohmward/adc'
import { between, exact, type Input, plusMinus, type Spread } from '@ohmward/quantity'
import type { ReadChoice } from './choice.js'
import * as f from './formulas/index.js'

/** Inputs of a model by symbol. */
export type InputSet = Readonly<Record<string, Input>>

/** Noise and rounding of a reading. */
export interface Graininess {
  /** Sensor noise, root mean square, in volts at its output. */
  readonly sensorNoise: number
  /** Rounding that averaging leaves: half-width in counts. */
  readonly halfWidth: number
  /** The converter's noise, root mean square, in counts. */
  readonly converterNoise: number
  /** All noise together, root mean square, in counts. */
  readonly noise: number
}

/** Values that stand behind the inputs. */
export interface Behind extends Graininess {
  /** Largest and smallest time constant of the filter, every part at its limit. */
  readonly tauMost: number
  readonly tauLeast: number
  /** From the edge until the reading stands, at most. */
  readonly needed: number
  /** From the edge to the sample. */
  readonly wait: number
  /** What the firmware takes for granted: zero, sensitivity, divider, reference. */
  readonly nominal: { readonly V_qn: number; readonly S_n: number; readonly k_dn: number; readonly V_refn: number }
  /** Noise and rounding of the zero's reading. */
  readonly zero: Graininess
}

/** `ends` as a condition: every value between them, the nominal one as near to `wanted` as they allow. */
export function condition(ends: { readonly from: number; readonly to: number }, wanted: number): Spread {
  return between(ends.from, ends.to, Math.min(Math.max(wanted, ends.from), ends.to))
}

/** Noise as a normal spread, its limits three standard deviations away. */
const noise = (standardDeviation: number): Spread =>
  standardDeviation > 0 ? plusMinus(0, 3 * standardDeviation, { kind: 'normal', coverage: 3 }) : exact(0)

const magnitude = (size: number): Spread => (size > 0 ? plusMinus(0, size) : exact(0))

/** What the firmware takes for granted: nominal parts, the rail in its middle. */
function nominals(choice: ReadChoice): Behind['nominal'] {
  const { sensor, sensorSupply, converter, divider, rail } = choice
  const middle = (rail.from + rail.to) / 2
  const r_s = sensor.output === 'fixed' ? 1 : (sensorSupply?.nominal ?? middle) / sensor.ratedSupply.nominal
  return {
    V_qn: sensor.zeroOutput.nominal * r_s,
    S_n: sensor.sensitivity.nominal * r_s,
    k_dn: divider
      ? f.dividerRatio({
          R_b: divider.bottom.nominal,
          R_o: sensor.outputResistance.nominal,
          R_t: divider.top.nominal,
        })
      : 1,
    V_refn: converter.reference.kind === 'absolute' ? converter.reference.V_ref0.nominal : middle,
  }
}

/** Source resistance before the converter, every part at its limit. */
export function sourceAt({ sensor, filter, divider }: ReadChoice, end: 'lower' | 'upper'): number {
  const R_o = sensor.outputResistance[end]
  const R_filt = filter.resistance[end]
  return divider
    ? f.sourceResistance({ R_o, R_t: divider.top[end], R_b: divider.bottom[end], R_filt })
    : f.plainSourceResistance({ R_o, R_filt })
}

/** Computes once what stands behind the inputs. */
export function behindOf(choice: ReadChoice): Behind {
  const { sensor, converter, timing, filter } = choice
  const tau = (end: 'lower' | 'upper') => f.filterTime({ R_src: sourceAt(choice, end), C_f: filter.capacitance[end] })
  const tauMost = tau('upper')
  const tauLeast = tau('lower')
  const tau_s = f.sensorTime({ BW_s: sensor.bandwidth.lower })
  const t_edge = timing.edge.upper
  const needed = f.neededWait({ t_edge, N_bits: converter.bits, tau_s, tau_f: tauMost })
  const wait = choice.wait ?? needed
  const nominal = nominals(choice)

  const M_avg = timing.samples.nominal
  const M_w = timing.samplesPerWindow.nominal
  const grain = (samples: number, inWindow: number) =>
    graininess(choice, nominal, { tauMost, tauLeast }, samples, inWindow)
  return {
    tauMost,
    tauLeast,
    needed,
    wait,
    nominal,
    ...grain(M_avg, M_w),
    zero: grain(choice.calibration.samples, 1),
  }
}

/** Noise and rounding of a mean of samples, of which some are taken one after another in the same window. */
function graininess(
  choice: ReadChoice,
  nominal: Behind['nominal'],
  { tauMost, tauLeast }: Pick<Behind, 'tauMost' | 'tauLeast'>,
  M_avg: number,
  M_w: number,
): Graininess {
  const { sensor, converter } = choice
  const within = f.sampleCorrelation({ T_s: conversion(choice), tau_f: tauMost })
  const between = f.sampleCorrelation({ T_s: intervalOf(choice), tau_f: tauMost })
  const q_n =
    f.meanVariance({ M_w, rho_n: Math.min(within, 0.9999) }) *
    f.meanVariance({ M_w: M_avg / M_w, rho_n: Math.min(between, 0.9999) })
  const f_3 = f.filterCorner({ tau_f: tauLeast })
  const BW_n = f.noiseBandwidth({ BW_s: sensor.bandwidth.upper, f_3 })
  const once = f.outputNoise({ e_d: sensor.noiseDensity.upper, BW_n })
  // Only noise that is sure to be there, and that is new with each sample, dithers the rounding away.
  const quietest = { BW_s: sensor.bandwidth.lower, f_3: f.filterCorner({ tau_f: tauMost }) }
  const least = f.outputNoise({ e_d: sensor.noiseDensity.lower, BW_n: f.noiseBandwidth(quietest) })
  const fresh = 1 - (M_w > 1 ? within : between)
  const A_count = f.countCurrent({ ...nominal, N_bits: converter.bits })
  const counts = (volts: number) => volts / nominal.S_n / A_count
  const { n_rms } = converter.spreads
  const dither = Math.hypot(n_rms.lower, counts(least) * Math.sqrt(fresh))
  const rounding = averaged(dither, M_avg)
  // The converter's part: its own noise and its rounding, both independent from sample to sample.
  const rounded = Math.max(0, rounding.noise ** 2 - dither ** 2 / M_avg)
  const converterNoise = Math.sqrt(n_rms.upper ** 2 / M_avg + rounded)
  const sensorNoise = once * Math.sqrt(q_n)
  const noise = Math.hypot(converterNoise, counts(sensorNoise))
  return { sensorNoise, halfWidth: rounding.halfWidth, converterNoise, noise }
}

/** Acquisition and conversion of one sample, at their shortest. */
const conversion = ({ converter: { spreads } }: ReadChoice) => spreads.t_acq.lower + spreads.t_conv.lower

/** Time from one sample to the next, or to the next window's. */
export function intervalOf(choice: ReadChoice): number {
  const { timing, pwm } = choice
  return Math.max(timing.interval.nominal || (pwm ? 1 / pwm.frequency : 1e-3), conversion(choice))
}

/** Duty at a mean current, and the ripple about the mean as a share of the step; 1 and 0 where nothing is averaged. */
export function rippleOf(choice: ReadChoice, { tauLeast }: Behind, I_x: number): { D_x: number; w_x: Spread } {
  const { pwm, reading, current } = choice
  if (reading === 'on-window' || !pwm) return { D_x: 1, w_x: exact(0) }
  const largest = Math.max(Math.abs(current.from), Math.abs(current.to))
  const D_x = Math.min(Math.max(Math.abs(I_x) / largest, pwm.duty.from), pwm.duty.to)
  const x = { D_PWM: D_x, f_PWM: pwm.frequency, tau_f: tauLeast }
  const [up, down] = [f.rippleAbove(x), f.rippleBelow(x)]
  return { D_x, w_x: up + down > 0 ? between(-down, up, 0) : exact(0) }
}

/** How much warmer than its air the largest current makes the sensor's conductor, and the sensor with it. */
export function conductorRise({ current, pwm, sensor }: ReadChoice, end: 'nominal' | 'upper'): number {
  const I_max = Math.max(Math.abs(current.from), Math.abs(current.to))
  const I_rms = f.rmsCurrent({ I_max, D_PWM: pwm?.duty.to ?? 1 })
  const P_c = f.conductorLoss({ I_rms, R_c: sensor.conductorResistance[end] })
  return f.conductorTemperature({ T_d: 0, R_thc: sensor.conductorThermalResistance[end], P_c })
}

/**
 * Every input of the chain by symbol at a current `I_x`, the conditions `V_rail` and `T_d` (kelvin of
 * the sensor above 25 °C, from its coldest air to the hottest and its conductor's heat) among them. `V_s` and `V_ref0` are there only where they aren't the rail: what is the rail is one variable.
 */
export function inputsOf(choice: ReadChoice, behind: Behind, I_x: number): InputSet {
  const { sensor: s, converter: c, filter, divider, surroundings, calibration } = choice
  const S_0 = s.sensitivity.nominal
  // A side without a range has the slope of the other; where neither has one, nothing is stated.
  const above = s.supplyMaximum.nominal - s.ratedSupply.nominal
  const below = s.ratedSupply.nominal - s.supplyMinimum.nominal
  const moved = (share: Spread): Input => (above + below > 0 ? share : 0)
  const field = (B_f: number) =>
    magnitude(S_0 * f.fieldCurrent({ B_f, C_B: s.fieldCoupling.lower, CMFR_dB: s.fieldRejectionDb.lower }))
  const { neighbourCurrent, neighbourDistance } = surroundings
  const B_nb = f.strayField({ mu_0: f.MU_0, I_nb: neighbourCurrent.upper, d_nb: neighbourDistance.lower })
  const V_h = magnitude(S_0 * f.remanence({ e_h: s.hysteresis.upper, I_pk: choice.peakCurrent }))
  const own = (tag: string, grain: Graininess) => ({
    ['V_n' + tag]: noise(grain.sensorNoise),
    ['e_q' + tag]: magnitude(grain.halfWidth),
    ['e_n' + tag]: noise(grain.converterNoise),
    ['e_INL' + tag]: c.spreads.e_INL,
  })
  const middle = (choice.rail.from + choice.rail.to) / 2
  return {
    V_rail: condition(choice.rail, middle),
    T_d: condition({ from: choice.ambient.from - 25, to: choice.ambient.to - 25 + conductorRise(choice, 'upper') }, 0),
    ...(choice.sensorSupply && { V_s: choice.sensorSupply }),
    ...(c.reference.kind === 'absolute' && { V_ref0: c.reference.V_ref0, TC_ref: c.reference.TC_ref }),
    I_x,
    V_s0: s.ratedSupply.nominal,
    V_q0: s.zeroOutput,
    S_0: s.sensitivity,
    V_oe: s.zeroError,
    D_oe: s.zeroDrift,
    V_above: above || below || 1,
    V_below: below || above || 1,
    m_q: moved(s.zeroSupplyError),
    e_S: s.sensitivityError,
    TC_S: s.sensitivityDrift,
    m_S: moved(s.sensitivitySupplyError),
    V_L: magnitude(S_0 * s.nonlinearity.upper * s.ratedCurrent.nominal),
    V_h,
    V_B: field(surroundings.steadyField.upper),
    V_nb: field(B_nb),
    V_ol: s.lowOutput.upper,
    V_oh: s.highOutputDrop.upper,
    R_o: s.outputResistance,
    R_t: divider?.top ?? 0,
    R_b: divider?.bottom ?? 1,
    R_filt: filter.resistance,
    C_f: filter.capacitance,
    t_set: Math.max(behind.wait - choice.timing.edge.upper, 0),
    // Moved by a few parts in 10⁹, so that it never equals the filter's: two equal poles have no such formula.
    tau_s: f.sensorTime({ BW_s: s.bandwidth.lower }) * (1 + Math.PI * 1e-9),
    ...rippleOf(choice, behind, I_x),
    V_lk: magnitude(Math.abs(f.leakageDrop({ I_leak: c.spreads.I_leak.upper, R_src: sourceAt(choice, 'upper') }))),
    N_bits: c.bits,
    h_code: c.h_code,
    e_gain: c.spreads.e_gain,
    e_offset: c.spreads.e_offset,
    ...behind.nominal,
    ...own('', behind),
    ...(calibration.kind !== 'none' && { ...own('z', behind.zero), I_rest: calibration.residual }),
    ...(calibration.kind === 'zero' && zeroConditions(choice, field(surroundings.steadyField.upper), V_h)),
    ...(calibration.kind === 'zero each time' && calibration.rail && { V_railc: calibration.rail }),
  }
}

/** The conditions of a zero that was read once. Where current flows both ways, it may stand after a peak of the other. */
function zeroConditions({ calibration, rail, current }: ReadChoice, V_Bz: Spread, V_h: Spread): InputSet {
  const room = calibration.atCelsius ?? exact(25)
  const T_c = { ...room, nominal: room.nominal - 25, lower: room.lower - 25, upper: room.upper - 25 }
  const both = current.from < 0 && current.to > 0
  return { T_c, V_railc: calibration.rail ?? (rail.from + rail.to) / 2, V_Bz, V_hz: both ? V_h : exact(0) }
}
