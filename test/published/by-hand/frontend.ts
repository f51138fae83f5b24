import * as f from '@ohmward/frontend/formulas'
import { byHand } from '../by-hand.js'

export const cases = [
  byHand(f.resistanceByPower, { V_rated: 12, P_rated: 36 }, '3 A at 12 V: 12 / 3 = 4'),
  byHand(f.resistanceByCurrent, { V_rated: 12, I_rated: 3 }, '12 / 3 = 4'),
  byHand(f.coldLoad, { R_work: 1.2, alpha_L: 0.002, dT_work: 100 }, 'a fifth more than when cold: 1.2 / 1.2 = 1'),
  byHand(f.powerSetPoint, { P_lim: 20, e_low: -0.1 }, 'a tenth below 20 W: 20 * 9 / 10 = 18'),
  byHand(f.stuckEnergy, { P_full: 17.5, t_wd: 2 }, '17.5 * 2 = 35'),
  byHand(
    f.powerShareError,
    { R_Lnom: 0.7, R_waynom: 0.1, R_L: 0.6, R_way: 0.15 },
    'of 1 W, 7/8 are thought to reach the load, 4/5 do: (7/8) / (4/5) - 1 = 0.09375',
  ),
  byHand(
    f.seenReference,
    { V_bg: 1.2, e_gain: 0.02, n_err: 12, code_bg: 400 },
    '12 counts of 400 and 2 parts of 100 too many: 1.2 * 1.05 = 1.26',
  ),
  byHand(
    f.railTime,
    { C_all: 0.02, R_s: 0.2, R_b: 0.6 },
    '20 mF behind 0.2 ohm beside 0.6 ohm, which are 0.15 ohm: 0.02 * 0.15 = 0.003',
  ),
  byHand(
    f.ringLow,
    { L_s: 5, C_all: 0.05, R_s: 14, R_b: 50 },
    '2.8 less 0.4 leave 1.6 of 2 radians a second: pi / sqrt(4 - (2.8 - 0.4)^2 / 4) = 1.9634954084936',
  ),
  byHand(f.pulseLength, { d_on: 0.3, f_PWM: 100, tau_r: 0.002 }, '3 ms of 2 ms: 3 / 2 = 1.5'),
  byHand(
    f.sampleShare,
    { s_0: 0.4, t_s: 0.006, tau_r: 0.002, x_on: 2 },
    'two fifths more at first, three time constants later over the mean of two: (1 + 0.4 * 0.049787068367863944) / (1 + 0.4 * 0.8646647167633873 / 2) = 0.86954231537896',
  ),
  byHand(
    f.meanShare,
    { s_0: 0.4, x_on: 3 },
    'two fifths more at first, over three time constants 0.4 * 0.950212931632136 / 3 in the mean, and 0.16 * 0.9975212478233336 / 6 of its square: 1.1266950575509516 / sqrt(1.279990681710525) = 0.9958707693377586',
  ),
  byHand(
    f.stepLeft,
    { t_p: 0.002, tau_r: 0.002, tau_p: 0.0005 },
    'one time constant of the rail, four of the pin: (2 * 0.36787944117144233 - 0.5 * 0.01831563888873418) / 1.5 = 0.48440070859868425',
  ),
  byHand(
    f.risingShare,
    { t_rise: 1e-4, f_PWM: 1000, d_on: 0.2 },
    'half of the pulse is the rise, whose mean square is a third: 1 / 2 + 1 / 2 * 1 / 3 = 0.6666666666666666',
  ),
  byHand(
    f.risingShare,
    { t_rise: 3e-4, f_PWM: 500, d_on: 0.1 },
    'a pulse of 0.2 ms that never comes to its full current has the mean square of a rise: 1 / 3 = 0.3333333333333333',
  ),
  byHand(
    f.pulseCurrent,
    { R_s: 0.3, R_b: 0.7, d_on: 0.2, x_on: 3 },
    'a rail that falls from rest: 3 parts of 7 more at first, of which (1 - exp(-3)) / 3 is the mean: 1 + 3 / 7 * 0.950212931632136 / 3 = 1.135744704518877',
  ),
  byHand(
    f.pulseCurrent,
    { R_s: 0.3, R_b: 0.7, d_on: 0.4, x_on: 0.25 },
    'a rail that stands still: the source has 0.3 * 0.4 ohm in effect: 1 / (0.12 + 0.7) = 1.2195121951219512',
  ),
  byHand(
    f.pulsePower,
    { R_s: 0.3, R_b: 0.7, d_on: 0.2, x_on: 3 },
    'twice the gain of the current, 0.2714894090377531, and the mean square of what is more: (3 / 7)^2 * (1 - exp(-6)) / 6: 1.2714894090377531 + 9 / 49 * 0.9975212478233336 / 6 = 1.3020258962567327',
  ),
  byHand(
    f.pulsePower,
    { R_s: 0.3, R_b: 0.7, d_on: 0.4, x_on: 0.25 },
    'square of 1 / 0.82: 1 / 0.6724 = 1.4872099940511602',
  ),
  byHand(f.dividerShare, { R_up: 2e5, R_low: 1e5 }, 'one of three: 1 / 3 = 0.3333333333333333'),
  byHand(
    f.dividedLanding,
    { V_act: 6.4, k_divn: 0.4, k_div: 0.32, I_leak: 5e-8, R_up: 2e5 },
    'four fifths of its ratio, and 50 nA in 200 kohm: 6.4 * 5 / 4 + 0.01 = 8.01',
  ),
  byHand(
    f.dividedReading,
    { V_true: 8.02, e_V: 0.05, k_divn: 0.4, k_div: 0.3, I_leak: 1e-7, R_up: 2e5 },
    '100 nA in 200 kohm leave 8 V, three quarters of its ratio and a twentieth more: 8 * 3 / 4 * 1.05 = 6.3',
  ),
  byHand(f.dividedResolution, { V_own: 3, k_div: 0.375, N_bits: 10 }, '8 V in 1024 counts: 8 / 1024 = 0.0078125'),
  byHand(
    f.stillLacking,
    { k_lack: 0.3, I_mean: 4, R_bat: 0.05 },
    'three tenths of 4 A in 50 mohm: 0.3 * 4 * 0.05 = 0.06',
  ),
  byHand(f.powerErrorSquare, { e_I: 0.1, e_R: 0.05 }, 'current 1.1, its square 1.21: 1.21 * 1.05 - 1 = 0.2705'),
  byHand(f.powerErrorPulsed, { e_P: 0.25, k_P: 1.2 }, 'a quarter more of a fifth more: 1.25 * 1.2 - 1 = 0.5'),
  byHand(f.powerErrorOnce, { e_bg: 0.1, e_I: 0.05, e_k: -0.02 }, '1.1 * 1.05 * 0.98 - 1 = 0.1319'),
  byHand(
    f.railReadError,
    { e_bg: 0.08, e_gain: 0.02, n_err: 12, code_bg: 400 },
    '12 counts of 400 and 2 parts of 100 too many: 1.08 / 1.05 - 1 = 0.02857142857142857',
  ),
  byHand(
    f.powerErrorTwice,
    { e_bg: 0.1, e_I: 0.05, e_q: 0.04, k_q: 0.5, e_k: -0.02 },
    'current 1.05 times 1.1 and its zero 0.02 more, voltage 1.1: 1.1 * (1.155 + 0.02) * 0.98 - 1 = 0.26665',
  ),
]
