import type { PartFields } from '@ohmward/quantity'

/**
 * What a transistor's data sheet states, by the words of its fields. All are magnitudes: a P-channel data sheet prints
 * many of them negative, leave the sign out.
 */
export const transistorFields = {
  thresholdVoltage: {
    symbol: 'V_th',
    unit: 'V',
    min: 0.01,
    max: 20,
    meaning: 'threshold at 25 °C, smallest to largest',
  },
  thresholdFall: {
    symbol: 'k_th',
    unit: 'V/K',
    min: 0,
    max: 0.02,
    otherwise: 3e-3,
    meaning: 'fall of the threshold with temperature',
  },
  gateSourceMaximum: {
    symbol: 'V_GSmax',
    unit: 'V',
    above: 0,
    max: 100,
    meaning: 'absolute maximum of the gate-source voltage',
  },
  drainSourceMaximum: { symbol: 'V_DSmax', unit: 'V', above: 0, max: 2000, meaning: 'rated drain-source voltage' },
  currentMaximum: {
    symbol: 'I_Dmax',
    unit: 'A',
    above: 0,
    max: 1000,
    meaning: 'rated continuous drain current, mounted as on your board',
  },
  junctionMaximumCelsius: {
    symbol: 'T_lim',
    unit: 'degC',
    min: 50,
    max: 250,
    otherwise: 150,
    meaning: 'rated junction temperature',
  },
  gateCharge: { symbol: 'Q_g', unit: 'C', min: 1e-12, max: 1e-5, meaning: 'total gate charge at your drive level' },
  gateSourceCharge: { symbol: 'Q_gs', unit: 'C', min: 1e-12, max: 1e-5, meaning: 'gate charge up to the plateau' },
  gateDrainCharge: { symbol: 'Q_gd', unit: 'C', min: 1e-12, max: 1e-5, meaning: 'gate charge over the plateau' },
  plateauVoltage: { symbol: 'V_pl', unit: 'V', above: 0, max: 20, meaning: 'gate-source voltage of the plateau' },
  gateResistance: {
    symbol: 'R_gi',
    unit: 'ohm',
    min: 0,
    max: 100,
    otherwise: 2,
    meaning: 'resistance inside the gate',
  },
  outputCapacitance: { symbol: 'C_oss', unit: 'F', min: 0, max: 1e-7, otherwise: 0, meaning: 'output capacitance' },
  inputCapacitance: { symbol: 'C_iss', unit: 'F', min: 1e-13, max: 1e-7, meaning: 'input capacitance' },
  reverseCapacitance: {
    symbol: 'C_gd',
    unit: 'F',
    min: 0,
    max: 1e-7,
    otherwise: 0,
    meaning: 'reverse transfer capacitance at a high drain voltage, where it is small',
  },
  bodyDiodeDrop: {
    symbol: 'V_SD',
    unit: 'V',
    above: 0,
    max: 5,
    otherwise: '0.8 V ±0.2 V',
    meaning: 'forward voltage of the body diode at the load current',
  },
  gateLeakage: {
    symbol: 'I_leak',
    unit: 'A',
    min: 0,
    max: 1e-3,
    otherwise: 1e-6,
    meaning: 'largest leakage of gate and drive, hot',
  },
} as const satisfies PartFields
