import * as f from '@ohmward/supply/formulas'
import { byHand } from '../by-hand.js'

export const cases = [
  // Cells
  byHand(f.ageFactor, { k_old: 3, x_age: 0.5 }, 'half way from 1 to 3: 4 / 2 = 2'),
  byHand(f.agedCapacity, { Q_cell: 7200, k_Q: 0.8, x_age: 0.5 }, 'half of a fifth is gone: 7200 * 9 / 10 = 6480'),
  byHand(f.batteryResistance, { n_s: 3, R_cell: 0.02, k_T: 2, k_q: 1.5, k_age: 1.2 }, '0.06 * 3.6 = 0.216'),
  byHand(f.batteryVoltage, { n_s: 3, U_0: 3.7, e_oc: 0.01 }, '11.1 + 0.03 = 11.13'),
  byHand(f.cellOpenCircuit, { V_bat: 4, V_drop: 0.3 }, '4 - 0.3 = 3.7'),
  byHand(f.cellSourceResistance, { R_bat: 0.06, R_path: 0.04 }, '0.06 + 0.04 = 0.1'),
  byHand(f.portOpenCircuit, { V_port: 5, V_drop: 0.25 }, '5 - 0.25 = 4.75'),
  byHand(f.portSourceResistance, { R_lead: 0.2, R_path: 0.05 }, '0.2 + 0.05 = 0.25'),
  byHand(f.usableCharge, { Q_age: 7200, q_from: 1, q_to: 0.1 }, 'nine tenths of 2 Ah: 1.8 * 3600 = 6480'),
  byHand(f.burstCharge, { I_L: 5, d_on: 0.5, t_burst: 10 }, '25 C a second over 10 s at half duty: 50 / 2 = 25'),
  byHand(f.burstCount, { Q_use: 6480, Q_burst: 25 }, '6480 / 25 = 259.2'),
  byHand(f.burstEnergy, { P_mean: 8, t_burst: 10 }, '8 * 10 = 80'),
  byHand(
    f.selfDischargeCurrent,
    { Q_age: 7200, s_mon: 0.02, t_mon: 2592000 },
    '40 mAh in 720 h: 0.04 / 720 = 0.0000555556',
  ),
  byHand(f.shelfTime, { Q_age: 7200, x_q: 0.5, I_sb: 8e-4, I_self: 2e-4 }, '1000 mAh at 1 mA: 1000 * 3600 = 3600000'),
  byHand(f.dividerDrain, { V_bat: 4, R_div: 2e6 }, '4 / 2e6 = 0.000002'),
  // The loaded rail
  byHand(f.loadedRail, { V_oc: 4, I_L: 5, R_s: 0.1 }, 'half a volt is dropped: 4 - 0.5 = 3.5'),
  byHand(f.resistorCurrent, { V_oc: 4, R_s: 0.1, R_L: 0.7 }, '4 V over 0.8 ohm: 4 / 0.8 = 5'),
  byHand(
    f.powerCurrent,
    { V_oc: 4, R_s: 0.1, P_L: 17.5 },
    '17.5 W are 3.5 V at 5 A, 0.5 V the drop: (4 - 3.5) / 0.1 = 5',
  ),
  byHand(f.largestPower, { V_oc: 4, R_s: 0.1 }, 'half the voltage at half the short current: 2 * 20 = 40'),
  byHand(f.largestResistorPower, { V_oc: 4, R_L: 0.7, R_s: 0.1 }, '5 A in 0.7 ohm: 25 * 0.7 = 17.5'),
  byHand(f.dutyForPower, { P_L: 7, P_full: 17.5 }, '7 / 17.5 = 0.4'),
  byHand(f.limitedRail, { I_lim: 3, R_L: 0.7 }, '3 * 0.7 = 2.1'),
  byHand(f.meanCurrent, { I_L: 5, d_on: 0.4 }, '5 * 2 / 5 = 2'),
  byHand(f.meanPower, { I_L: 5, V_rail: 3.5, d_on: 0.4 }, '17.5 * 2 / 5 = 7'),
  // An element in the path
  byHand(f.warmResistance, { R_20: 0.05, alpha_el: 0.004, dT_el: 50 }, 'a fifth more: 0.05 * 6 / 5 = 0.06'),
  byHand(f.elementDrop, { I_el: 5, R_el: 0.02, V_el: 0.3 }, '0.1 + 0.3 = 0.4'),
  byHand(f.elementLoss, { I_el: 5, R_el: 0.02, V_el: 0.3 }, '5 A through 0.4 V: 5 * 0.4 = 2'),
  byHand(
    f.elementGain,
    { R_thel: 40, I_el: 5, R_20: 0.05, alpha_el: 0.004 },
    '1.25 W, 50 K, 0.4 % each: 50 * 0.004 = 0.2',
  ),
  byHand(f.elementRise, { R_thel: 40, P_el: 1.25, g_el: 0.2 }, 'T = 50 + 0.2 T: 50 / 0.8 = 62.5'),
  byHand(f.elementHeadroom, { dT_most: 85, R_thel: 40, P_el: 1.5 }, '85 - 60 = 25'),
  byHand(f.protectionTrip, { V_trip: 0.1, R_el: 0.02 }, '0.1 / 0.02 = 5'),
  byHand(f.tripSlack, { k_trip: 0.9, I_trip: 10, I_el: 5 }, '9 - 5 = 4'),
  // Rails behind the main one
  byHand(f.regulatedRail, { V_set: 3, V_raw: 4, V_do: 0.2 }, 'in regulation: min(3, 4 - 0.2) = 3'),
  byHand(f.regulatedRail, { V_set: 3, V_raw: 3.1, V_do: 0.2 }, 'in dropout: 3.1 - 0.2 = 2.9'),
  byHand(f.resistiveDropout, { I_log: 0.05, R_do: 4 }, '0.05 * 4 = 0.2'),
  byHand(
    f.regulatorDroop,
    { I_step: 0.1, t_resp: 1e-5, C_out: 1e-5, ESR_out: 0.2 },
    '1 uC in 10 uF, and 0.1 A in 0.2 ohm: 1e-6 / 1e-5 + 0.1 * 0.2 = 0.12',
  ),
  byHand(
    f.regulatorLoss,
    { V_raw: 5, V_log: 3, I_log: 0.1, I_q: 0.001 },
    '0.2 W of drop, 5 mW of its own: (5 - 3) * 0.1 + 5 * 0.001 = 0.205',
  ),
  byHand(f.regulatorRise, { P_reg: 0.2, R_threg: 150 }, '0.2 * 150 = 30'),
  byHand(f.diodeRail, { V_raw: 3.3, V_f: 0.3 }, '3.3 - 0.3 = 3'),
  byHand(f.thermalVoltage, { k_B: 1.380649e-23, T_abs: 300, q_e: 1.602176634e-19 }, '300 / 11604.518 = 0.025852'),
  byHand(
    f.emissionCoefficient,
    { V_f0: 0.3, V_f1: 0.53, V_T: 0.025, I_f0: 1e-3, I_f1: 0.1 },
    '0.23 V over two decades of 25 mV: 0.23 / (0.025 * 4.60517) = 1.99775',
  ),
  byHand(
    f.forwardVoltage,
    { V_f0: 0.3, n_f: 2, V_T: 0.025, I_f: 1e-2, I_f0: 1e-3, k_f: 0.002, dT_f: 10 },
    'a decade up, ten kelvin hotter: 0.3 + 0.05 * 2.302585 - 0.02 = 0.395129',
  ),
  byHand(f.heldRail, { V_log: 3.3, I_log: 0.01, t_sag: 0.01, C_h: 1e-3 }, '0.1 mC from 1 mF: 3.3 - 0.1 = 3.2'),
  byHand(
    f.holdUpNeeded,
    { I_log: 0.01, t_sag: 0.01, V_log: 3.3, V_least: 2.8 },
    '0.1 mC over half a volt: 1e-4 / 0.5 = 0.0002',
  ),
  byHand(f.resistorRail, { V_raw: 3.3, I_log: 0.01, R_iso: 10 }, '3.3 - 0.1 = 3.2'),
  byHand(
    f.filteredRail,
    { V_sag: 2.5, I_log: 0.01, R_iso: 10, V_rest: 3.5, t_sag: 0.01 * Math.LN2, C_h: 1e-3 },
    'half way to the lower end: (3.5 + 2.5) / 2 - 0.1 = 2.9',
  ),
  byHand(f.pinOverdrive, { V_pin: 3.6, V_log: 3, V_clamp: 0.4 }, '0.6 - 0.4 = 0.2'),
  byHand(f.clampCurrent, { V_over: 0.3, R_ser: 1000 }, '0.3 / 1000 = 0.0003'),
  // Cut-off
  byHand(f.estimatedOpenCircuit, { V_rail: 3.5, I_use: 5, R_use: 0.1 }, '3.5 + 0.5 = 4'),
  byHand(
    f.restAtCutOff,
    { V_thr: 3.5, I_use: 5, R_use: 0.08, I_L: 5, R_s: 0.1 },
    'a rail of 3.1 V is taken for 3.5 V, at rest it is 0.5 V higher: 3.1 + 0.5 = 3.6',
  ),
  byHand(f.cutOffAboveReset, { V_stop: 3.6, I_L: 5, R_s: 0.1, V_bod: 2.7 }, '3.1 - 2.7 = 0.4'),
  byHand(f.rebound, { I_L: 5, R_s: 0.1 }, '5 * 0.1 = 0.5'),
  byHand(f.hysteresisSlack, { V_hys: 0.6, V_reb: 0.5, V_noise: 0.02 }, '0.6 - 0.52 = 0.08'),
]
