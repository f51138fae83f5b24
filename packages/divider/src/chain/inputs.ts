import { averaged } from '@ohmward/adc'
import { condition, type InputSet, noiseSpread } from '@ohmward/budget'
import { between, plusMinus, type Spread } from '@ohmward/quantity'
import type { ReadChoice } from '../choice.js'
import { junctionVoltage } from '../formulas/index.js'
import { nominalGain, unsettledOf } from '../settling.js'

/** A ratio from decibels, as a part's rejection or gain is stated. */
export const ratioOf = (decibels: number) => 10 ** (-decibels / 20)

/** 4·k·T at 300 K: the noise density of a resistor, squared and per ohm. */
const THERMAL = 4 * 1.380649e-23 * 300

/**
 * The gain-bandwidth product over which noise counts: a part may be twice as fast as its least one says (common practice, no
 * source), and is as fast as its data sheet says where that is given.
 */
export const fastest = ({ gainBandwidth, fastestGainBandwidth }: ReadChoice['amplifier']): number =>
  fastestGainBandwidth?.upper ?? Math.max(2 * gainBandwidth.nominal, gainBandwidth.upper)

/** Input noise of amplifier and resistors over the noise bandwidth that the closed loop and the filter leave. */
function inputNoise({ topology, amplifier, timing, gainResistors, surroundings }: ReadChoice, gain: number): number {
  const ground = gainResistors.ground.nominal
  const feedback = gainResistors.feedback.nominal
  const grounded = topology === 'load at ground'
  const closedLoop = fastest(amplifier) / (grounded ? gain : gain + 1)
  // Without a filter its bandwidth is infinite.
  const filter = 1 / (2 * Math.PI * timing.filter.nominal)
  const bandwidth = (Math.PI / 2) * Math.min(closedLoop, filter)
  const parallel = (ground * feedback) / (ground + feedback)
  const R_noise = parallel + (grounded ? surroundings.protectionResistance.nominal : parallel)
  const density = Math.sqrt(amplifier.noiseDensity.upper ** 2 + THERMAL * R_noise)
  return (density * Math.sqrt(bandwidth)) / Math.sqrt(timing.samples.nominal)
}

/** What each reading has of its own: noise, rounding, its place on the converter's curve, what is still unsettled. */
export function ownInputs(choice: ReadChoice, tag: string): InputSet {
  const { spreads } = choice.converter
  const rounding = averaged(spreads.n_rms.upper, choice.timing.samples.nominal)
  return {
    ['V_n' + tag]: noiseSpread(inputNoise(choice, nominalGain(choice))),
    ['e_q' + tag]: plusMinus(0, rounding.halfWidth),
    ['e_n' + tag]: noiseSpread(rounding.noise),
    ['e_INL' + tag]: spreads.e_INL,
    ['s_set' + tag]: plusMinus(0, unsettledOf(choice)),
  }
}

/**
 * Every input of the chain by symbol, the two conditions `V_rail` and `T_d` (kelvin above 25 °C) among them.
 * `V_exc`, `V_amp` and `V_ref` are there only where they aren't the rail: what is the rail is one variable.
 *
 * @param tags - readings beside the one of interest, each with noise and rounding of its own: `z` of a short, `s` of a
 *   known resistor, `h` of the hot load
 */
export function inputsOf(choice: ReadChoice, tags: readonly string[]): InputSet {
  const {
    surroundings: s,
    amplifier: a,
    gainResistors: g,
    converter: c,
    excitationSwitch,
    referencePart,
    timing,
  } = choice
  const middle = choice.nominalRail
  const rejection = (decibels: Spread) => plusMinus(0, ratioOf(decibels.lower))
  const ratio = g.ratioTolerance
  const resistors =
    choice.topology === 'load at ground'
      ? {
          ...(ratio ? { n_net: g.feedback.nominal / g.ground.nominal, e_net: ratio } : { R_f: g.feedback }),
          R_g: g.ground,
          R_p: s.protectionResistance,
          I_leak: s.clampLeakage,
          p_ped: choice.pedestal,
          p_pedn: choice.pedestal.nominal,
          G_n: nominalGain(choice),
        }
      : {
          R_a: g.ground,
          R_c: g.ground,
          ...(ratio
            ? { n_net: g.feedback.nominal / g.ground.nominal, e_net: ratio, e_netP: ratio }
            : { R_b: g.feedback, R_d: g.feedback }),
          alpha_P: g.ratioDrift,
          d_P: g.ratioAgeing,
          R_cn: g.ground.nominal,
          g_n: nominalGain(choice),
        }
  const V_excn = choice.excitation?.nominal ?? middle
  return {
    V_rail: condition(choice.rail, middle),
    T_d: condition({ from: choice.ambient.from - 25, to: choice.ambient.to - 25 }, 0),
    ...(choice.excitation && !choice.isOneNode && { V_exc: choice.excitation }),
    ...(choice.amplifierSupply && { V_amp: choice.amplifierSupply }),
    ...(c.reference.kind === 'absolute' && { V_ref0: c.reference.V_ref0, TC_ref: c.reference.TC_ref }),
    V_sat: excitationSwitch.saturation,
    R_sw: excitationSwitch.resistance,
    R_ref: choice.reference,
    alpha_ref: referencePart.temperatureCoefficient,
    d_ref: referencePart.ageing,
    R_thref: referencePart.thermalResistance,
    d_m: timing.measuringDuty,
    R_x: choice.load.nominal,
    kappa: choice.kappa,
    R_lead: s.leadResistance,
    R_con: s.contactVariation,
    R_ds: s.switchInSpan,
    I_off: s.switchLeakage,
    V_emf: plusMinus(0, Math.abs(junctionVoltage({ S_emf: s.thermoelectric.upper, T_j: s.junctionDifference.upper }))),
    I_o: s.groundCurrent,
    R_sh: s.sharedGround,
    V_os: a.offsetVoltage,
    D_os: a.offsetDrift,
    V_age: a.offsetAgeing,
    V_ps: a.offsetSupply,
    V_cms: a.offsetCommonMode ?? a.offsetSupply.nominal / 2,
    m_ps: rejection(a.supplyRejectionDb),
    m_cm: rejection(a.commonModeRejectionDb),
    I_b: a.biasCurrent,
    I_os: a.offsetCurrent,
    alpha_G: g.ratioDrift,
    d_G: g.ratioAgeing,
    a_ol: between(0, ratioOf(a.openLoopGainDb.lower), 0),
    V_oh: a.highOutputDrop.upper,
    V_ol: a.lowOutput.upper,
    N_bits: c.bits,
    h_code: c.h_code,
    e_gain: c.spreads.e_gain,
    e_offset: c.spreads.e_offset,
    I_pin: c.spreads.I_leak,
    R_filt: timing.filterResistance,
    ...resistors,
    R_refn: choice.reference.nominal,
    R_swn: excitationSwitch.resistance.nominal,
    R_leadn: s.leadResistance.nominal,
    V_satn: excitationSwitch.saturation.nominal,
    V_excn,
    V_refn: c.reference.kind === 'absolute' ? c.reference.V_ref0.nominal : middle,
    ...ownInputs(choice, ''),
    ...Object.assign({}, ...tags.map((tag) => ownInputs(choice, tag))),
  }
}

/** Inputs of the calibration readings, in the conditions of the calibration. */
export function calibrationInputs({ calibration, nominalRail }: ReadChoice): InputSet {
  if (calibration.kind === 'none') return {}
  const room = calibration.atCelsius
  const T_c = { ...room, nominal: room.nominal - 25, lower: room.lower - 25, upper: room.upper - 25 }
  const common = { T_c, V_railc: calibration.rail ?? nominalRail, R_short: calibration.short }
  return calibration.kind === 'zero'
    ? common
    : { ...common, R_cal: calibration.resistor, R_caln: calibration.resistor.nominal }
}
