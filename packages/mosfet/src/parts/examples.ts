import type { MosfetChoice, MosfetConditions } from '../choice.js'
import type { Drive } from './drive.js'
import type { Transistor } from './transistor.js'

/**
 * Transistors by class, invented: no part on the market has just these figures. Each stands at what is usual for its
 * class; replace them by those of your part's data sheet.
 */
export const exampleTransistors = {
  /** For one cell: on-resistance guaranteed down to 1.8 V. */
  'P-channel, driven from 1.8 V': {
    channel: 'P',
    onResistance: '1.8 V: 32 mohm typ 22 mohm; 2.5 V: 19 mohm typ 14.5 mohm; 4.5 V: 12.5 mohm typ 9.8 mohm',
    temperatureLaw: {
      kind: 'points',
      points: '-50 degC: 0.78; 25 degC: 1; 75 degC: 1.19; 125 degC: 1.42; 150 degC: 1.55',
    },
    thresholdVoltage: '0.7 V ±0.3 V',
    thresholdFall: '2.5 mV/K',
    gateSourceMaximum: '10 V',
    drainSourceMaximum: '20 V',
    currentMaximum: '11 A',
    gateCharge: '32 nC',
    gateSourceCharge: '4.5 nC',
    gateDrainCharge: '8 nC',
    plateauVoltage: '1.5 V',
    gateResistance: '6 ohm',
    outputCapacitance: '380 pF',
    inputCapacitance: '2.3 nF',
    reverseCapacitance: '320 pF',
    gateLeakage: '1 uA',
    copper: '40: 115 K/W; 650: 48 K/W',
    transientImpedance:
      '0.1 ms: 0.35 K/W; 1 ms: 1.1 K/W; 10 ms: 3.4 K/W; 0.1 s: 9 K/W; 1 s: 19 K/W; 10 s: 36 K/W; 100 s: 47 K/W; 1000 s: 48 K/W',
    safePulses: '10 us: 900 W; 100 us: 320 W; 1 ms: 105 W; 10 ms: 34 W; 100 ms: 12 W',
  },
  /** For 4.5 V of gate drive and more: no promise on one cell. */
  'P-channel, driven from 4.5 V': {
    channel: 'P',
    onResistance: '4.5 V: 20 mohm typ 15 mohm; 10 V: 13 mohm typ 10.5 mohm',
    temperatureLaw: { kind: 'linear', perKelvin: '0.45 %/K' },
    thresholdVoltage: '1.8 V ±0.6 V',
    gateSourceMaximum: '20 V',
    drainSourceMaximum: '30 V',
    currentMaximum: '10 A',
    gateCharge: '28 nC',
    gateSourceCharge: '7 nC',
    gateDrainCharge: '9 nC',
    plateauVoltage: '3 V',
    gateResistance: '4 ohm',
    outputCapacitance: '300 pF',
    inputCapacitance: '1.9 nF',
    reverseCapacitance: '220 pF',
    copper: '40: 110 K/W; 650: 45 K/W',
    avalancheEnergy: '30 mJ',
  },
  /** For the low side of one cell. */
  'N-channel, driven from 1.8 V': {
    channel: 'N',
    onResistance: '1.8 V: 16 mohm typ 11 mohm; 2.5 V: 10 mohm typ 7.8 mohm; 4.5 V: 7.5 mohm typ 6 mohm',
    temperatureLaw: { kind: 'power', exponent: 1.7 },
    thresholdVoltage: '0.75 V ±0.3 V',
    thresholdFall: '2.5 mV/K',
    gateSourceMaximum: '12 V',
    drainSourceMaximum: '20 V',
    currentMaximum: '15 A',
    gateCharge: '22 nC',
    gateSourceCharge: '3 nC',
    gateDrainCharge: '5 nC',
    plateauVoltage: '1.5 V',
    gateResistance: '1.5 ohm',
    outputCapacitance: '320 pF',
    inputCapacitance: '1.7 nF',
    reverseCapacitance: '190 pF',
    copper: '40: 110 K/W; 650: 46 K/W',
    avalancheEnergy: '20 mJ',
  },
} as const satisfies Record<string, Transistor>

/** Drives by kind, invented figures of usual size. */
export const exampleDrives = {
  /** A small transistor that pulls a P-channel gate down. */
  'NPN and pull-up of 1 kohm': {
    kind: 'inverting transistor',
    gateResistor: '47 ohm ±1 %',
    baseResistor: '1 kohm ±1 %',
    basePullDown: '2.2 kohm ±1 %',
    highLevel: '2.3 V',
    pull: { at: 'gate', resistance: '1 kohm ±1 %' },
    resetPull: '30 kohm',
  },
  /** Sparing, and slow to switch off. */
  'NPN and pull-up of 10 kohm': {
    kind: 'inverting transistor',
    gateResistor: '47 ohm ±1 %',
    baseResistor: '4.7 kohm ±1 %',
    basePullDown: '10 kohm ±1 %',
    highLevel: '2.3 V',
    pull: { at: 'gate', resistance: '10 kohm ±1 %' },
  },
  /** Straight to a gate. */
  'controller pin': {
    kind: 'pin',
    gateResistor: '150 ohm ±1 %',
    resistance: '40 ohm ±15 ohm',
    sinkResistance: '35 ohm ±15 ohm',
    currentMaximum: '40 mA',
    pull: { at: 'drive', resistance: '1.5 kohm ±1 %' },
    resetPull: '30 kohm',
  },
  /** On the rail. */
  'driver circuit': {
    kind: 'driver',
    gateResistor: '4.7 ohm ±1 %',
    resistance: '3 ohm ±1 ohm',
    sinkResistance: '2 ohm ±1 ohm',
    currentMaximum: '2 A',
    supplyMinimum: '2 V',
    pull: { at: 'gate', resistance: '10 kohm ±1 %' },
  },
} as const satisfies Record<string, Drive>

/** The sailmaker's cordless hot knife, its switch: one cell, a blade of 0.7 ohm, P-channel on the high side. Invented parts. */
export const exampleChoice = /*#__PURE__*/ (() =>
  ({
    transistor: exampleTransistors['P-channel, driven from 1.8 V'],
    drive: exampleDrives['NPN and pull-up of 1 kohm'],
    load: { resistance: '0.7 ohm ±5 %' },
    pwm: { frequency: '100 Hz', duty: { from: 0.1, to: 0.9 } },
    thermal: { copperSquareMillimetres: 250 },
    wiring: { inductance: '0.3 uH' },
  }) as const satisfies MosfetChoice)()

/** One cell from full to a tenth of its charge, with its path: new and warm at the least, cold and aged at the most. */
export const exampleConditions = {
  openCircuit: { from: '3.25 V', to: '4.23 V' },
  sourceResistance: '66 mohm +139/-38 mohm',
  ambientCelsius: { from: '0 degC', to: '50 degC' },
} as const satisfies MosfetConditions
