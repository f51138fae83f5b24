import * as f from '@ohmward/adc/formulas'
import { byHand } from '../by-hand.js'

/** Time constants that halve in a round time: what is left is then a power of two. */
const halving = (seconds: number) => seconds / Math.LN2
const sections = { code_ideal: 1000, R_sw: 1e5, C_sh: 1.5e-11, tau_1: halving(1e-4), tau_2: halving(1e-6), t_acq: 3e-6 }

export const cases = [
  byHand(f.absoluteReference, { V_ref0: 2.5, TC_ref: 50e-6, dT: 40 }, '2.5 + 2.5 * 0.002 = 2.505'),
  byHand(f.ownReference, { V_ref0: 1.2, TC_ref: -100e-6, T_d: 30 }, '1.2 less 3 parts in 1000: 1.2 - 0.0036 = 1.1964'),
  byHand(f.referenceOnRail, { V_rail: 3.3 }, 'the rail itself: 3.3 = 3.3'),
  byHand(f.countVoltage, { V_ref: 4.096, N_bits: 12 }, '4096 counts in 4.096 V: 4.096 / 4096 = 0.001'),
  byHand(f.fullScaleCode, { N_bits: 10 }, '1024 codes from 0: 1024 - 1 = 1023'),
  byHand(f.idealCode, { V_pin: 0.75, V_ref: 3, N_bits: 10 }, 'a quarter of 1024: 1024 / 4 = 256'),
  byHand(
    f.codeVoltage,
    { code: 100, h_code: 0.5, V_ref: 4.096, N_bits: 12 },
    'half a count and a hundred: 0.0005 + 100 * 0.001 = 0.1005',
  ),
  byHand(
    f.convertedCode,
    { code_ideal: 1000, e_gain: 0.002, e_offset: -3, e_INL: 1.5, e_q: 0.25, e_n: 0.5 },
    '1000 + 2 - 3 + 1.5 + 0.25 + 0.5 = 1001.25',
  ),
  byHand(
    f.clippedCode,
    { code_c: 500, h_code: 0.5, N_bits: 10 },
    'inside the range: min(max(500, 0.5), 1023 + 0.5) = 500',
  ),
  byHand(f.clippedCode, { code_c: 1500, h_code: 0.5, N_bits: 10 }, 'the last code and a half: 1023 + 0.5 = 1023.5'),
  byHand(f.clippedCode, { code_c: -7, h_code: 0.5, N_bits: 10 }, 'the first one: 0 + 0.5 = 0.5'),
  byHand(
    f.steppedCode,
    { V_pin: 1.0009, V_ref: 2.048, N_bits: 11, h_in: 0 },
    'whole mV, 2048 of them: floor(1000.9) = 1000',
  ),
  byHand(
    f.steppedCode,
    { V_pin: 1.0009, V_ref: 2.048, N_bits: 11, h_in: 0.5 },
    'to the nearest mV: floor(1000.9 + 0.5) = 1001',
  ),
  byHand(
    f.steppedCode,
    { V_pin: 3, V_ref: 2.048, N_bits: 11, h_in: 0.5 },
    '3000 mV, but at the top of 11 bits: min(3000, 2^11 - 1) = 2047',
  ),
  byHand(f.steppedCode, { V_pin: -1, V_ref: 2.048, N_bits: 11, h_in: 0.5 }, 'at the bottom: max(-1000, 0) = 0'),
  byHand(f.pinVoltage, { V_s: 2, s_acq: 0.01, I_leak: 1e-6, R_s: 5000 }, '2 - 0.02 - 0.005 = 1.975'),
  byHand(f.groundBounce, { I_step: 2, R_gnd: 0.001, V_ref: 2.048, N_bits: 11 }, '2 mV at 1 mV a count: 2 / 1 = 2'),
  byHand(f.referenceShift, { V_assumed: 3.3, V_ref: 3 }, 'a tenth more than there is: 0.3 / 3 = 0.1'),
  byHand(f.bledLevel, { I_leak: 1e-6, R_bleed: 1e5 }, '1 uA in 100 kohm: 1e-6 * 1e5 = 0.1'),
  byHand(f.tapDrop, { I_cell: 2, R_series: 0.05, V_F: 0.3 }, '0.1 + 0.3 = 0.4'),
  // Noise
  byHand(f.quantisationNoise, { V_LSB: 0.001 }, 'deviation of a rectangle of 1 mV: sqrt(0.001^2 / 12) = 0.000288675'),
  byHand(f.quantisationSnr, { N_bits: 12 }, 'sine of half the range over it: 10 * log10((2^11)^2 / 2 * 12) = 74.0081'),
  byHand(f.effectiveBits, { SINAD_dB: 68 }, '(68 - 1.76091) / 6.0206 = 11.0021'),
  byHand(f.noiseFreeCounts, { N_bits: 12, n_rms: 2 }, 'peak to peak of 13.2 counts: 4096 / 13.2 = 310.303'),
  byHand(
    f.noiseFreeCounts,
    { N_bits: 12, n_rms: 0.1 },
    'of 4096 / 0.66 no more than there are: min(4096 / 0.66, 2^12) = 4096',
  ),
  byHand(f.averagedNoise, { n_rms: 2, M_avg: 16 }, 'variances over 16: sqrt(4 / 16 + 1 / 192) = 0.505181'),
  byHand(f.averagedResidual, { e_sys: 0.3, n_rms: 1.6, M_avg: 16 }, '3, 4, 5: sqrt(0.09 + 0.16) = 0.5'),
  byHand(
    f.averagingBits,
    { M_avg: 256 },
    'a bit for each factor of 4, 4 * 4 * 4 * 4 are 256: log10(256) / log10(4) = 4',
  ),
  byHand(f.ditheredHalfWidth, { n_rms: 0 }, 'no noise, half a count: 1 / 2 = 0.5'),
  byHand(f.ditheredHalfWidth, { n_rms: 0.25 }, '-log(1 - 1 / exp(19.7392 / 16)) / 3.14159265 = 0.109562'),
  byHand(
    f.thermalNoise,
    { k_B: 1.380649e-23, T_abs: 300, R_n: 1e5, BW_n: 1e6 },
    'sqrt(1.6567788e-20 * 1e11) = 0.0000407035',
  ),
  byHand(f.samplingNoise, { k_B: 1.380649e-23, T_abs: 300, C_sh: 1e-11 }, 'sqrt(4.141947e-21 / 1e-11) = 0.0000203518'),
  // Settling and sampling
  byHand(f.timeConstant, { R_f: 1e4, C_f: 1e-8 }, '1e4 * 1e-8 = 0.0001'),
  byHand(f.settlingError, { t_given: 5e-4, tau: halving(1e-4) }, 'five halvings: 1 / 32 = 0.03125'),
  byHand(f.settlingTime, { N_bits: 12, tau: halving(1e-4) }, 'thirteen halvings: 13 * 1e-4 = 0.0013'),
  byHand(
    f.unsettledShare,
    { tau_f: halving(2e-6), tau_s: halving(1e-6), t_set: 4e-6 },
    'halved twice and four times: (2 * 2^-2 - 1 * 2^-4) / (2 - 1) = 0.4375',
  ),
  byHand(
    f.unsettledShare,
    { tau_f: 1e-6, tau_s: 1e-6, t_set: 2e-6 },
    'two equal ones, at t of two: (1 + 2) * exp(-2) = 0.406006',
  ),
  byHand(f.settledBits, { t_given: 7e-4, tau: halving(1e-4) }, 'a halving each 0.1 ms: 7e-4 / 1e-4 = 7'),
  byHand(
    f.acquisitionError,
    { t_acq: 2e-6, R_s: 8000, R_sw: 2000, C_sh: 1e-11 / Math.LN2 },
    '20 halvings: 2^-20 = 9.53674e-7',
  ),
  byHand(f.acquisitionNeeded, { R_s: 8000, R_sw: 2000, C_sh: 1e-11 / Math.LN2, N_bits: 12 }, '13 * 1e-7 = 0.0000013'),
  byHand(
    f.referenceWait,
    { t_start: 1e-3, n_tau: 5, R_refint: 1e4, C_refpin: 1e-7 },
    'the longer one: 5 * 1e-3 = 0.005',
  ),
  byHand(
    f.referenceWait,
    { t_start: 8e-3, n_tau: 5, R_refint: 1e4, C_refpin: 1e-7 },
    '8 ms, the longer one: max(8e-3, 5 * 1e4 * 1e-7) = 0.008',
  ),
  byHand(
    f.sensorWindow,
    { BW_s: 35e3, N_bits: 11, tau: halving(1e-6), t_acq: 3e-6 },
    '10e-6 + 12e-6 + 3e-6 = 0.000025',
  ),
  byHand(f.samplingTime, { n_samples: 4, t_acq: 2e-6, t_conv: 3e-6 }, '4 * 5e-6 = 0.00002'),
  byHand(
    f.averagedRipple,
    { D_PWM: 0.5, f_PWM: 1000, tau: halving(5e-4) },
    'half in each half period: (1/2) * (1/2) / (3/4) = 0.333333',
  ),
  byHand(
    f.averagedRipple,
    { D_PWM: 0.25, f_PWM: 1000, tau: halving(1.25e-4) },
    'two halvings up, six down: (3/4) * (63/64) / (255/256) = 0.741176',
  ),
  byHand(
    f.slowSection,
    { R_src: 1000, C_f: 9e-9, C_sh: 1e-9, R_sw: 9000 },
    'root of x^2 - 19 x + 81 in us: (19 + sqrt(19^2 - 4 * 81)) / 2 * 1e-6 = 0.0000125414',
  ),
  byHand(
    f.fastSection,
    { R_src: 1000, C_f: 9e-9, R_sw: 9000, C_sh: 1e-9, tau_1: 12.5e-6 },
    'product of the roots over the other: 81e-12 / 12.5e-6 = 0.00000648',
  ),
  byHand(
    f.burstLoss,
    { ...sections, M_w: 1, T_s: 1e-4, T_i: 1e-4 },
    'each by itself: 1000 * ((1 - 1/(1.5 * log(2))) * 100/99 * 2^(-3/100) * 2 + (100/(1.5 * log(2)) - 1) / 99 / 8) = 195.766',
  ),
  byHand(
    f.burstLoss,
    { ...sections, M_w: 3, T_s: 2e-4, T_i: 1e-3 },
    'three that a quarter is left of: 1000 * ((1 - 1/(1.5 * log(2))) * 100/99 * 2^(-3/100) * (1 + 1/4 + 1/16) * 1024/1023 + (100/(1.5 * log(2)) - 1) / 99 / 8) = 169.831',
  ),
  byHand(f.reservoirNeeded, { N_bits: 11, C_sh: 1e-11 }, 'half a count in 2048 is 1 in 4096: 4096 * 1e-11 = 4.096e-8'),
  byHand(
    f.reservoirError,
    { N_bits: 10, C_sh: 1e-11, C_res: 1e-9, T_s: 2e-3, R_s: 1e6 / Math.LN2 },
    'three quarters refilled by the next sample: 1024 * 10 / (10 + 750) = 13.4737',
  ),
  // Windows of the PWM
  byHand(f.onSlack, { D_PWM: 0.25, f_PWM: 1000, t_on: 1e-4 }, '250e-6 - 100e-6 = 0.00015'),
  byHand(f.offSlack, { D_PWM: 0.25, f_PWM: 1000, t_off: 1e-4 }, '750e-6 - 100e-6 = 0.00065'),
  byHand(f.shortestDuty, { t_on: 1e-4, f_PWM: 1000 }, '100 us of 1 ms: 0.1 / 1 = 0.1'),
  byHand(f.longestDuty, { t_off: 2e-4, f_PWM: 1000 }, '200 us of 1 ms are kept: 1 - 0.2 / 1 = 0.8'),
  byHand(
    f.highestFrequency,
    { D_lo: 0.1, t_on: 1e-4, D_hi: 0.9, t_off: 2e-4 },
    'a tenth of 2 ms is off: 1 / 2e-3 = 500',
  ),
  byHand(
    f.highestFrequency,
    { D_lo: 0.1, t_on: 1e-3, D_hi: 0.9, t_off: 2e-4 },
    'a tenth of 10 ms is on: 1 / 0.01 = 100',
  ),
  // The rail, known by a reference inside
  byHand(f.referenceCode, { V_bg: 1.2, N_bits: 10, V_rail: 3 }, '0.4 * 1024 = 409.6'),
  byHand(
    f.railFromReference,
    { V_bg: 1.2, N_bits: 10, code_bg: 409.6 },
    '1024 counts at 1.2 V each 409.6: 2.5 * 1.2 = 3',
  ),
  byHand(f.railResolution, { V_rail: 3, V_bg: 1.2, N_bits: 10 }, 'slope at code 409.6: 3 / 409.6 = 0.00732422'),
  byHand(f.cutOffLanding, { V_cut: 3, V_bg: 1.26, V_bgnom: 1.2 }, 'five percent high: 3 + 0.15 = 3.15'),
  // Integers
  byHand(f.largestSum, { M_avg: 16, code_max: 4095 }, '65536 - 16 = 65520'),
  byHand(
    f.largestMultiplier,
    { W_bits: 16, code_max: 1023 },
    '65535 is 64 * 1023 + 63: floor((64 * 1023 + 63) / 1023) = 64',
  ),
  byHand(f.largestMultiplier, { W_bits: 8, code_max: 1 }, 'of one bit, the whole word: 256 - 1 = 255'),
  byHand(f.wordSlack, { W_bits: 16, acc_max: 60000 }, '65535 - 60000 = 5535'),
  byHand(f.divisionLoss, { K_num: 7, K_den: 4 }, '1 in the place of 1.75: 0.75 / 1.75 = 0.428571'),
]
