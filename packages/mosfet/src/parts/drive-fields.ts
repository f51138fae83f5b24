import type { PartFields } from '@ohmward/quantity'

/** The resistor that holds the gate off; in an inverting drive the pull-up that the transistor pulls against. */
export const pullFields = {
  resistance: {
    symbol: 'R_p',
    hasTolerance: true,
    unit: 'ohm',
    above: 0,
    max: 1e8,
    meaning: 'resistance of the pull-up or pull-down',
  },
  ratedPower: {
    symbol: 'P_prated',
    unit: 'W',
    above: 0,
    max: 100,
    otherwise: 0.1,
    meaning: 'its rated power at the ambient',
  },
} as const satisfies PartFields

const common = {
  gateResistor: {
    symbol: 'R_g',
    hasTolerance: true,
    unit: 'ohm',
    min: 0,
    max: 1e6,
    otherwise: 0,
    meaning: 'resistor before the gate',
  },
  pinLeakage: {
    symbol: 'I_pinleak',
    unit: 'A',
    min: 0,
    max: 1e-3,
    otherwise: 1e-6,
    meaning: 'leakage of the pin as an input, hot',
  },
} as const satisfies PartFields

/** A drive that pulls both ways: a controller's pin or a driver circuit. */
export const directFields = /*#__PURE__*/ (() =>
  ({
    ...common,
    resistance: { symbol: 'R_drv', unit: 'ohm', above: 0, max: 1e5, meaning: 'output resistance, switching on' },
    sinkResistance: { symbol: 'R_snk', unit: 'ohm', above: 0, max: 1e5, meaning: 'output resistance, switching off' },
    drop: {
      symbol: 'V_drop',
      unit: 'V',
      min: 0,
      max: 20,
      otherwise: 0,
      meaning: 'voltage lost on top of the resistance, switched on',
    },
    offLevel: {
      symbol: 'V_off',
      unit: 'V',
      min: 0,
      max: 100,
      otherwise: 0,
      meaning: 'voltage left on the gate, switched off',
    },
    currentMaximum: { symbol: 'I_pinmax', unit: 'A', above: 0, max: 100, meaning: 'largest peak current allowed' },
    supplyMinimum: {
      symbol: 'V_supmin',
      unit: 'V',
      min: 0,
      max: 100,
      otherwise: 0,
      meaning: 'lowest supply at which it works',
    },
  }) as const satisfies PartFields)()

/** One emitter follower, or a complementary pair. */
export const followerFields = /*#__PURE__*/ (() =>
  ({
    ...common,
    resistance: {
      symbol: 'R_drv',
      unit: 'ohm',
      above: 0,
      max: 1e5,
      otherwise: 10,
      meaning: 'output resistance of the follower',
    },
    baseEmitter: {
      symbol: 'V_BE',
      unit: 'V',
      min: 0.2,
      max: 2,
      otherwise: '0.7 V ±0.1 V',
      meaning: 'base-emitter voltage',
    },
    currentMaximum: {
      symbol: 'I_pinmax',
      unit: 'A',
      above: 0,
      max: 100,
      otherwise: 0.2,
      meaning: 'largest peak current allowed',
    },
  }) as const satisfies PartFields)()

/** One inverting bipolar transistor against a pull-up. */
export const inverterFields = /*#__PURE__*/ (() =>
  ({
    ...common,
    saturation: { symbol: 'V_CE', unit: 'V', min: 0, max: 2, otherwise: '0.2 V ±0.1 V', meaning: 'saturation voltage' },
    baseEmitter: {
      symbol: 'V_BE',
      unit: 'V',
      min: 0.2,
      max: 2,
      otherwise: '0.7 V ±0.1 V',
      meaning: 'base-emitter voltage, conducting',
    },
    baseOff: {
      symbol: 'V_BEoff',
      unit: 'V',
      above: 0,
      max: 2,
      otherwise: 0.4,
      meaning: 'base voltage below which it is sure to be off, hot',
    },
    baseResistor: {
      symbol: 'R_b',
      hasTolerance: true,
      unit: 'ohm',
      above: 0,
      max: 1e7,
      meaning: 'resistor before the base',
    },
    highLevel: {
      symbol: 'V_high',
      unit: 'V',
      above: 0,
      max: 20,
      meaning: 'lowest high level of the pin that drives the base',
    },
    currentGain: {
      symbol: 'h_FE',
      unit: '1',
      min: 5,
      max: 1e4,
      otherwise: 50,
      meaning: 'smallest current gain in use',
    },
    storageTime: {
      symbol: 't_sto',
      unit: 's',
      min: 0,
      max: 1e-3,
      otherwise: 1e-6,
      // From memory: a small one that a base resistor alone clears takes 0.2 to 1 µs.
      meaning: 'longest storage time of the saturated transistor; 0 where a clamp keeps it out of saturation',
    },
  }) as const satisfies PartFields)()

/** The published tables of drives: from the words of a drive's fields to symbols. */
export const driveFields = {
  direct: directFields,
  follower: followerFields,
  inverter: inverterFields,
  pull: pullFields,
} as const
