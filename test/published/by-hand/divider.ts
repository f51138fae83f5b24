import * as f from '@ohmward/divider/formulas'
import { byHand } from '../by-hand.js'

/** A loop of 10 ohm beside the load, a quarter of its leads of 0.2 ohm inside what is sensed. */
const outer = { R_refn: 9, R_swn: 0.85, kappa: 0.25, R_leadn: 0.2 }
/** A time constant after which half is left in the time given. */
const halving = (seconds: number) => seconds / Math.LN2
const platinum = { A_pt: 3.9083e-3, B_pt: -5.775e-7 }

export const cases = [
  // The loop
  byHand(f.excitationFromRail, { V_rail: 3.3 }, 'the rail itself: 3.3 = 3.3'),
  byHand(f.excitationFromReference, { V_ref: 2.5 }, 'the reference itself: 2.5 = 2.5'),
  byHand(f.amplifierOnRail, { V_rail: 3.3 }, 'the rail itself: 3.3 = 3.3'),
  byHand(f.wireResistance, { R_lead: 0.04, R_con: 0.01 }, '0.04 + 0.01 = 0.05'),
  byHand(f.spanResistance, { R_x: 0.7, kappa: 0.5, R_wire: 0.1, R_ds: 0.02 }, '0.7 + 0.05 + 0.02 = 0.77'),
  byHand(f.groundedSpan, { R_x: 0.7, kappa: 0.5, R_wire: 0.1, R_ds: 0.02, R_sh: 0.01 }, '0.77 + 0.01 = 0.78'),
  byHand(f.outerResistance, { R_warm: 47, R_sw: 1, kappa: 0.25, R_wire: 0.4 }, '47 + 1 + 0.3 = 48.3'),
  byHand(f.outerAtRail, { R_warm: 47, R_sw: 1, kappa: 0.25, R_wire: 0.4, R_sh: 0.2 }, '48.3 + 0.2 = 48.5'),
  byHand(
    f.testCurrent,
    { V_exc: 5, V_sat: 0.2, I_off: 0.01, R_span: 2, I_o: 0.5, R_sh: 0.04, R_out: 10 },
    '0.24 V of 5 V are elsewhere, 12 ohm: 4.76 / 12 = 0.396667',
  ),
  byHand(
    f.coldCurrent,
    { V_exc: 5, V_sat: 0.2, R_ref: 9, R_sw: 0.85, kappa: 0.25, R_wire: 0.2, R_span: 2 },
    '4.8 V over 12 ohm: 4.8 / 12 = 0.4',
  ),
  byHand(f.strayVoltage, { V_emf: 20e-6, I_o: 0.5, R_sh: 0.001 }, '20e-6 + 500e-6 = 0.00052'),
  byHand(f.junctionVoltage, { S_emf: 5e-6, T_j: 10 }, '5 uV a kelvin, 10 K: 5e-6 * 10 = 0.00005'),
  byHand(
    f.senseVoltage,
    { I_t: 0.4, I_off: 0.01, R_span: 0.5, V_stray: 0.001 },
    '0.41 A in 0.5 ohm: 0.205 + 0.001 = 0.206',
  ),
  byHand(f.meanDissipation, { I_r: 0.4, R_warm: 9, d_m: 0.25 }, '1.44 W, a quarter of the time: 1.44 / 4 = 0.36'),
  byHand(f.referenceDissipation, { I_cold: 0.4, R_ref: 9 }, '0.16 * 9 = 1.44'),
  byHand(
    f.referenceTemperature,
    { T_d: 10, R_thref: 50, d_m: 0.25, P_ref: 1.44 },
    '10 K, and 50 K/W of 0.36 W: 10 + 50 * 0.25 * 1.44 = 28',
  ),
  byHand(
    f.warmReference,
    { R_ref: 47, alpha_ref: 1e-4, T_ref: 30, d_ref: 0.002 },
    '5 parts in 1000: 47 * 1.005 = 47.235',
  ),
  byHand(
    f.warmReference,
    { R_ref: 47, alpha_ref: -0.02, T_ref: 50, d_ref: 0 },
    'nothing would be left of it, never below a tenth: 47 * max(1 - 0.02 * 50, 0.1) = 4.7',
  ),
  byHand(
    f.loadWarming,
    { I_t: 2, R_x: 0.5, R_thx: 20, d_m: 0.25, t_wait: 1, tau_x: halving(1) },
    '2 W are 40 K: a quarter of it on the mean, half of it in this pulse: 10 + 20 = 30',
  ),
  // Amplifier
  byHand(f.matchedFeedback, { R_g: 1000, n_net: 22, e_net: 0.001 }, '22000 + 22 = 22022'),
  byHand(f.feedbackParallel, { R_f: 22e3, R_g: 1e3 }, '1 / (1/22000 + 1/1000) = 956.522'),
  byHand(
    f.resistorGain,
    { R_f: 22e3, R_g: 1e3, alpha_G: 1e-5, T_d: 50, d_G: 0.0005 },
    '22 and a thousandth: 1 + 22.022 = 23.022',
  ),
  byHand(f.actualGain, { G: 100, a_ol: 1e-4 }, 'loop gain 100: 100 * 100 / 101 = 99.0099'),
  byHand(f.amplifierTimeConstant, { G_noise: 100, GBW: 1e6 }, 'corner 10 kHz: 0.15915494 / 1e4 = 0.0000159155'),
  byHand(
    f.inputOffset,
    { V_os: 1e-4, D_os: 1e-6, T_d: 40, V_amp: 3, V_ps: 5, m_ps: 1e-5, V_age: 5e-6 },
    'uV: (100 + 40 - 20 + 5) / 1e6 = 0.000125',
  ),
  byHand(
    f.biasVoltage,
    { I_b: 1e-8, R_p: 3000, R_fg: 1000, I_os: 4e-9, I_leak: 2e-9 },
    '12 nA and 2 nA out of 3 kohm, 8 nA out of 1 kohm: 14e-9 * 3000 - 8e-9 * 1000 = 0.000034',
  ),
  byHand(f.furtherShift, { I_add: 1e-9, R_in: 1e4 }, '1e-9 * 1e4 = 0.00001'),
  byHand(
    f.inputVoltage,
    { V_x: 0.1, V_cms: 1.6, m_cm: 1e-4, V_off: 3e-4, V_bias: 2e-5, V_n: -1e-5, V_add: 4e-5 },
    '1.5 V off the common mode: 0.1 - 150e-6 + (300 + 20 - 10 + 40) * 1e-6 = 0.1002',
  ),
  byHand(f.inputPin, { V_x: 0.1, I_b: 1e-8, I_os: 4e-9, I_leak: 2e-9, R_p: 1e4 }, '0.1 + 14e-9 * 1e4 = 0.10014'),
  byHand(f.wantedOutput, { G_a: 20, V_in: 0.1, p_ped: 0.1, V_ref: 3 }, '2 + 0.3 = 2.3'),
  byHand(f.highestOutput, { V_amp: 3.3, V_oh: 0.05 }, '3.3 - 0.05 = 3.25'),
  byHand(f.limitedOutput, { V_ol: 0.02, V_want: 2, V_hi: 3.25 }, 'inside: max(0.02, min(2, 3.25)) = 2'),
  byHand(f.limitedOutput, { V_ol: 0.02, V_want: 4, V_hi: 3.25 }, 'at the top: min(4, 3.25) = 3.25'),
  byHand(f.limitedOutput, { V_ol: 0.02, V_want: 0, V_hi: 3.25 }, 'at the bottom: max(0.02, 0) = 0.02'),
  byHand(f.zeroFloor, { V_ol: 0.02, V_ref: 4.096, N_bits: 12 }, 'two counts of 1 mV: 0.02 + 0.002 = 0.022'),
  byHand(
    f.pinVoltage,
    { V_out: 2, e_add: 0.001, s_set: -0.001, V_amp: 3.3, V_ref: 3, I_pin: 1e-7, R_filt: 1e4 },
    '2 + 0.002 - 0.0033 - 0.001 = 1.9977',
  ),
  byHand(
    f.pinVoltage,
    { V_out: 2, e_add: 0.001, s_set: -0.001, V_amp: 2.5, V_ref: 3, I_pin: 1e-7, R_filt: 1e4 },
    '2 + 0.002 - 0.003 - 0.001 = 1.998',
  ),
  byHand(
    f.ceilingResistance,
    { R_out: 10, V_hi: 2.3, p_ped: 0.1, V_ref: 3, G_a: 10, V_exc: 2.2, V_sat: 0.2 },
    '0.2 V sensed of 2 V, so 1.8 V in 10 ohm: 0.2 / 0.18 = 1.11111',
  ),
  byHand(
    f.neededWait,
    { t_rec: 1e-5, V_hi: 3, SR: 1e5, t_settle: 2e-5, t_filter: 4e-5 },
    '30 us of slope: (10 + 30 + 20 + 40) / 1e6 = 0.0001',
  ),
  byHand(f.neededProtection, { V_over: 12.3, V_clamp: 0.3, I_clamp: 0.001 }, '12 V at 1 mA: 12 / 0.001 = 12000'),
  byHand(
    f.neededProtection,
    { V_over: 0.2, V_clamp: 0.3, I_clamp: 0.001 },
    '0.1 V below the clamp, none: max(0.2 - 0.3, 0) / 0.001 = 0',
  ),
  // Load at the rail, by a difference amplifier
  byHand(f.inputShare, { R_a: 1000, alpha_P: 1e-5, T_d: 50, d_P: -0.0005, R_b: 4000 }, '4000 / 5000 = 0.8'),
  byHand(
    f.inputShare,
    { R_a: 1000, alpha_P: 1e-4, T_d: 100, d_P: 0.24, R_b: 4000 },
    '1 kohm becomes 800 ohm, ratio 5 in the place of 4: 4000 / (1000 / 1.25 + 4000) = 0.833333',
  ),
  byHand(f.commonMode, { beta: 0.8, V_exc: 12 }, '12 * 4 / 5 = 9.6'),
  byHand(f.matchedUpper, { R_a: 1000, n_net: 4, e_netP: 0.001 }, '4000 + 4 = 4004'),
  byHand(f.matchedLower, { R_c: 1000, n_net: 4, e_net: -0.001 }, '4000 - 4 = 3996'),
  byHand(
    f.differenceGain,
    { R_d: 4000, R_c: 1000, alpha_G: 1e-5, T_d: 50, d_G: 0.0005 },
    '4 and a thousandth of it: 4 * (1 + 1e-5 * 50 + 0.0005) = 4.004',
  ),
  byHand(
    f.lowerVoltage,
    { V_exc: 10, R_span: 1, V_sat: 0.1, R_out: 8.9, beta: 0.8, R_c: 100, I_off: 0.01 },
    'with 9 V there, 1 A + 0.01 A + 0.01 A leave, 1 A comes: lower by 0.02 A over the conductances: 9 - 0.02 / (1 + 1/8.9 + 1/100) = 8.98218',
  ),
  byHand(
    f.currentFromRail,
    { V_m: 9, V_sat: 0.1, R_out: 8.9, V_exc: 10, beta: 0.8, R_c: 100, I_off: 0.02 },
    '8.9 V in 8.9 ohm, 1 V in 100 ohm: 1 + 0.01 + 0.02 = 1.03',
  ),
  byHand(f.referenceCurrent, { V_m: 9, V_sat: 0.1, R_out: 8.9 }, '8.9 V in as many ohm: (9 - 0.1) / 8.9 = 1'),
  byHand(f.senseVoltageAtRail, { V_exc: 10, V_m: 9, V_stray: 0.001 }, '1 + 0.001 = 1.001'),
  byHand(
    f.differenceBias,
    { I_b: 1e-8, I_os: 4e-9, R_a: 4000, R_b: 12000, R_c: 2000, R_d: 2000 },
    '12 nA out of 3 kohm, 8 nA out of 1 kohm: 36e-6 - 8e-6 = 0.000028',
  ),
  byHand(
    f.differenceError,
    { V_off: 1e-4, V_bias: 2e-5, V_cm: 9.6, V_cms: 1.6, m_cm: 1e-5, V_n: -1e-5, V_add: 4e-5 },
    '8 V off the common mode: (100 + 20 + 80 - 10 + 40) / 1e6 = 0.00023',
  ),
  byHand(
    f.differencePin,
    { V_cm: 9.6, I_b: 1e-6, I_os: 4e-7, R_a: 3000, R_b: 6000 },
    '1.2 uA out of 2 kohm: 9.6 + 0.0024 = 9.6024',
  ),
  byHand(
    f.differenceOutput,
    { V_cm: 8, V_err: 0.01, g: 4, V_exc: 10, V_x: 0.5, a_ol: 0.01 },
    'five times 8.01 less four times 9.5, loop gain 20: 2.05 * 20 / 21 = 1.95238',
  ),
  byHand(f.sinkCurrentNeeded, { V_cm: 9.6, V_ol: 0.1, R_d: 1e5 }, '9.5 / 1e5 = 0.000095'),
  // Firmware
  byHand(
    f.indicatedRatio,
    { code_out: 2250, N_bits: 12, p_pedn: 0.1, V_refn: 4.096, G_n: 10, V_excn: 2.2, V_satn: 0.2 },
    '1 mV a count: 2.25 V less 0.4096 V, a tenth of it over 2 V: 0.18404 / 2 = 0.09202',
  ),
  byHand(
    f.indicatedResistance,
    { ...outer, r: 0.0566037736 },
    '0.6 of 10.6 ohm, 0.05 ohm are leads: 0.6 - 0.05 = 0.55',
  ),
  byHand(f.indicatedResistance, { ...outer, r: 1 }, 'all across it, over a thousandth: 10 * 1000 - 0.05 = 9999.95'),
  byHand(
    f.indicatedShare,
    { code_out: 2000, N_bits: 12, V_refn: 4.096, g_n: 4, V_excn: 10 },
    '0.5 V of 10 V: 1 / 20 = 0.05',
  ),
  byHand(
    f.indicatedFromRail,
    { r: 0.1, V_satn: 0.1, V_excn: 10, R_refn: 7.8, R_swn: 0.5, kappa: 0.25, R_leadn: 0.8, g_n: 1.5, R_cn: 100 },
    '1 V across, 8.9 V in 8.9 ohm, 4 - 1 V in 100 ohm, 0.2 ohm of leads: 1 / 1.03 - 0.2 = 0.770874',
  ),
  byHand(
    f.indicatedFromRail,
    { r: 1, V_satn: 0.1, V_excn: 10, R_refn: 7.8, R_swn: 0.5, kappa: 0.25, R_leadn: 0.8, g_n: 1.5, R_cn: 100 },
    'all across it, over a thousandth of the current: 8.9 * 1000 - 0.2 = 8899.8',
  ),
  byHand(f.zeroedResistance, { R_ind: 0.72, R_z: 0.02 }, '0.72 - 0.02 = 0.7'),
  byHand(
    f.correctedResistance,
    { R_ind: 0.72, R_z: 0.02, R_caln: 2, R_s: 2.12 },
    '0.7 where 2.1 stands for 2: 1.4 / 2.1 = 0.666667',
  ),
  byHand(
    f.correctedResistance,
    { R_ind: 0.72, R_z: 0.02, R_caln: 2, R_s: 0.02 },
    'over a tenth of the resistor: 0.7 * 10 = 7',
  ),
  byHand(
    f.countResistance,
    { ...outer, r: 0.2, V_refn: 4.096, N_bits: 12, G_n: 10, V_excn: 2.2, V_satn: 0.2 },
    'a count is 1/20000 of the loop; R = 10 r / (1 - r) has the slope 10 / 0.64: 15.625 / 20000 = 0.00078125',
  ),
  byHand(
    f.countResistance,
    { ...outer, r: 1, V_refn: 4.096, N_bits: 12, G_n: 10, V_excn: 2.2, V_satn: 0.2 },
    'over a thousandth, squared: 10 * 1e6 / 20000 = 500',
  ),
  byHand(f.ratioShift, { V_exc: 3.3, V_ref: 3, V_refn: 3, V_excn: 3 }, 'a tenth more on top: 3.3 / 3 - 1 = 0.1'),
  byHand(f.ratioShift, { V_exc: 3, V_ref: 2, V_refn: 2.5, V_excn: 3 }, '1.5 in the place of 1.2: 0.3 / 1.2 = 0.25'),
  // Temperature from resistance
  byHand(f.linearRatio, { alpha: 0.004, T_rise: 50 }, '0.4 % a kelvin: 1 + 0.2 = 1.2'),
  byHand(f.curvedRatio, { alpha: 0.004, T_rise: 50, q_alpha: -0.001 }, 'five percent less of a rise: 1 + 0.19 = 1.19'),
  byHand(
    f.platinumRatioAbove,
    { ...platinum, t_C: 100 },
    'IEC 60751, 138.51 ohm of 100 ohm: 1 + 0.39083 - 0.005775 = 1.38505',
  ),
  byHand(
    f.platinumRatioBelow,
    { ...platinum, C_pt: -4.183e-12, t_100: 100, t_C: -200 },
    'IEC 60751, 18.52 ohm of 100 ohm: 1 - 0.78166 - 0.0231 - 4.183e-12 * 300 * 8e6 = 0.185201',
  ),
  byHand(f.classTolerance, { a_class: 0.3, b_class: 0.005, t_C: -100 }, 'IEC 60751, class B: 0.3 + 0.5 = 0.8'),
  byHand(f.ratioOfTwo, { R_hot: 0.84, R_rest: 0.7, R_0n: 0.7 }, 'a fifth more: 6 / 5 = 1.2'),
  byHand(f.ratioOfTwo, { R_hot: 0.84, R_rest: -0.1, R_0n: 0.7 }, 'over a hundredth of the nominal: 0.84 / 0.007 = 120'),
  byHand(f.indicatedRise, { W_ind: 1.2, W_0: 1.1, alpha_n: 0.004 }, '1.32, so 32 % at 0.4 % a kelvin: 320 / 4 = 80'),
  byHand(f.resistanceError, { dR: 0.014, R_rest: 0.7, alpha: 0.004 }, '2 % at 0.4 % a kelvin: 2 / 0.4 = 5'),
  byHand(
    f.coefficientError,
    { T_rise: 100, alpha: 0.0042, alpha_n: 0.004 },
    '42 % read at 0.4 % a kelvin: 105 - 100 = 5',
  ),
  byHand(
    f.dilutionError,
    { T_rise: 100, R_fix: 0.1, R_rest: 0.7 },
    'an eighth of the resistance stays: -100 / 8 = -12.5',
  ),
  byHand(
    f.storedWarmError,
    { T_e: 25, alpha: 0.004, T_rise: 100 },
    'cold value 1.1, hot 1.4: (1.4 / 1.1 - 1) / 0.004 - 100 = -31.8182',
  ),
]
