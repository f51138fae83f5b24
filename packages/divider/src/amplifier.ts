import type { Fields, Given } from '@ohmward/quantity'

/**
 * What an amplifier's data sheet must say, over the temperatures at which the device is used: maximum or minimum
 * limits, never typical values.
 */
export const amplifierFields = {
  offsetVoltage: {
    symbol: 'V_os',
    unit: 'V',
    magnitude: true,
    max: 1,
    meaning: 'largest input offset voltage at 25 °C',
  },
  offsetDrift: {
    symbol: 'D_os',
    unit: 'V/K',
    magnitude: true,
    max: 0.01,
    meaning: 'largest drift of the offset voltage',
  },
  offsetAgeing: {
    symbol: 'V_age',
    unit: 'V',
    magnitude: true,
    max: 0.1,
    otherwise: 0,
    meaning: 'largest change of the offset over the life, either sign',
  },
  biasCurrent: { symbol: 'I_b', unit: 'A', magnitude: true, max: 1e-3, meaning: 'largest input bias current' },
  offsetCurrent: {
    symbol: 'I_os',
    unit: 'A',
    magnitude: true,
    max: 1e-3,
    meaning: 'largest difference of the two input currents',
  },
  openLoopGainDb: { symbol: 'A_dB', unit: 'dB', min: 40, max: 200, meaning: 'least open-loop gain at this load' },
  commonModeRejectionDb: {
    symbol: 'CMRR_dB',
    unit: 'dB',
    min: 30,
    max: 200,
    meaning: 'least common-mode rejection ratio',
  },
  supplyRejectionDb: { symbol: 'PSRR_dB', unit: 'dB', min: 30, max: 200, meaning: 'least supply rejection ratio' },
  offsetSupply: { symbol: 'V_ps', unit: 'V', above: 0, max: 60, meaning: 'supply at which the offset is specified' },
  offsetCommonMode: {
    symbol: 'V_cms',
    unit: 'V',
    min: -60,
    max: 60,
    optional: true,
    meaning: 'common mode at which the offset is specified; half that supply by default',
  },
  gainBandwidth: { symbol: 'GBW', unit: 'Hz', above: 0, max: 1e10, meaning: 'least gain-bandwidth product' },
  fastestGainBandwidth: {
    symbol: 'GBW_max',
    unit: 'Hz',
    above: 0,
    max: 1e11,
    optional: true,
    meaning: 'largest gain-bandwidth product, for the noise bandwidth; twice the least by default',
  },
  slewRate: { symbol: 'SR', unit: 'V/s', above: 0, max: 1e10, meaning: 'least slew rate' },
  highOutputDrop: {
    symbol: 'V_oh',
    unit: 'V',
    min: 0,
    max: 10,
    meaning: 'largest distance of the output from the positive supply',
  },
  lowOutput: { symbol: 'V_ol', unit: 'V', min: 0, max: 10, meaning: 'lowest output that is guaranteed, above ground' },
  sinkCurrent: {
    symbol: 'I_sink',
    unit: 'A',
    min: 0,
    max: 1,
    meaning: 'least output sink current at its lowest voltage',
  },
  commonModeLow: {
    symbol: 'V_cml',
    unit: 'V',
    min: -10,
    max: 10,
    meaning: 'lowest input voltage allowed, from ground',
  },
  commonModeHighDrop: {
    symbol: 'V_cmh',
    unit: 'V',
    min: -10,
    max: 10,
    meaning: 'distance of the highest input voltage allowed below the positive supply; negative when above it',
  },
  recovery: { symbol: 't_rec', unit: 's', min: 0, max: 1, meaning: 'time to recover from a saturated output' },
  noiseDensity: {
    symbol: 'e_d',
    unit: 'V/Hz^0.5',
    min: 0,
    max: 1e-3,
    meaning: 'input voltage noise density, flicker noise included',
  },
  supplyMinimum: { symbol: 'V_smin', unit: 'V', above: 0, max: 60, meaning: 'lowest rated supply' },
  supplyMaximum: { symbol: 'V_smax', unit: 'V', above: 0, max: 60, meaning: 'highest rated supply' },
} as const satisfies Fields

/** An amplifier as its user writes it: strings with units, SI numbers, or spreads. */
export interface Amplifier extends Given<typeof amplifierFields> {}
