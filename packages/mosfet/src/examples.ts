import type { MosfetChoice, MosfetConditions } from './choice.js'
import type { Drive } from './drive.js'
import type { Transistor } from './parts.js'

/**
 * Transistors by class, invented: no part on the market has just these figures. Each stands at what is usual for its
 * class; replace them by those of your part's data sheet.
 */
export const exampleTransistors = {
  /** P-channel, for one cell: on-resistance guaranteed down to 1.8 V. */
  pChannelLowVoltage: {
    channel: 'P',
    onResistance: [
      { gateSource: 1.8, maximum: 0.032, typical: 0.022 },
      { gateSource: 2.5, maximum: 0.019, typical: 0.0145 },
      { gateSource: 4.5, maximum: 0.0125, typical: 0.0098 },
    ],
    temperatureLaw: {
      kind: 'points',
      points: [
        { celsius: -50, factor: 0.78 },
        { celsius: 25, factor: 1 },
        { celsius: 75, factor: 1.19 },
        { celsius: 125, factor: 1.42 },
        { celsius: 150, factor: 1.55 },
      ],
    },
    thresholdVoltage: '0.7 V ±0.3 V',
    thresholdFall: 2.5e-3,
    gateSourceMaximum: 10,
    drainSourceMaximum: 20,
    currentMaximum: 11,
    gateCharge: 32e-9,
    gateSourceCharge: 4.5e-9,
    gateDrainCharge: 8e-9,
    plateauVoltage: 1.5,
    gateResistance: 6,
    outputCapacitance: 380e-12,
    inputCapacitance: 2300e-12,
    reverseCapacitance: 320e-12,
    gateLeakage: 1e-6,
    copper: [
      { squareMillimetres: 40, kelvinPerWatt: 115 },
      { squareMillimetres: 650, kelvinPerWatt: 48 },
    ],
    transientImpedance: [
      { seconds: 1e-4, kelvinPerWatt: 0.35 },
      { seconds: 1e-3, kelvinPerWatt: 1.1 },
      { seconds: 1e-2, kelvinPerWatt: 3.4 },
      { seconds: 0.1, kelvinPerWatt: 9 },
      { seconds: 1, kelvinPerWatt: 19 },
      { seconds: 10, kelvinPerWatt: 36 },
      { seconds: 100, kelvinPerWatt: 47 },
      { seconds: 1000, kelvinPerWatt: 48 },
    ],
    safePulses: [
      { seconds: 1e-5, watts: 900 },
      { seconds: 1e-4, watts: 320 },
      { seconds: 1e-3, watts: 105 },
      { seconds: 1e-2, watts: 34 },
      { seconds: 0.1, watts: 12 },
    ],
  },
  /** P-channel, for 4.5 V of gate drive and more: hot on one cell. */
  pChannelLogicLevel: {
    channel: 'P',
    onResistance: [
      { gateSource: 4.5, maximum: 0.02, typical: 0.015 },
      { gateSource: 10, maximum: 0.013, typical: 0.0105 },
    ],
    temperatureLaw: { kind: 'linear', perKelvin: 0.0045 },
    thresholdVoltage: '1.8 V ±0.6 V',
    gateSourceMaximum: 20,
    drainSourceMaximum: 30,
    currentMaximum: 10,
    gateCharge: 28e-9,
    gateSourceCharge: 7e-9,
    gateDrainCharge: 9e-9,
    plateauVoltage: 3,
    gateResistance: 4,
    outputCapacitance: 300e-12,
    inputCapacitance: 1900e-12,
    reverseCapacitance: 220e-12,
    avalancheEnergy: 0.03,
  },
  /** N-channel, for one cell, low side. */
  nChannelLowVoltage: {
    channel: 'N',
    onResistance: [
      { gateSource: 1.8, maximum: 0.016, typical: 0.011 },
      { gateSource: 2.5, maximum: 0.01, typical: 0.0078 },
      { gateSource: 4.5, maximum: 0.0075, typical: 0.006 },
    ],
    temperatureLaw: { kind: 'power', exponent: 1.7 },
    thresholdVoltage: '0.75 V ±0.3 V',
    thresholdFall: 2.5e-3,
    gateSourceMaximum: 12,
    drainSourceMaximum: 20,
    currentMaximum: 15,
    gateCharge: 22e-9,
    gateSourceCharge: 3e-9,
    gateDrainCharge: 5e-9,
    plateauVoltage: 1.5,
    gateResistance: 1.5,
    outputCapacitance: 320e-12,
    inputCapacitance: 1700e-12,
    reverseCapacitance: 190e-12,
    avalancheEnergy: 0.02,
  },
} as const satisfies Record<string, Transistor>

/** Drives by kind, invented figures of usual size. */
export const exampleDrives = {
  /** Small NPN that pulls a P-channel gate down against a pull-up of 1 kilohm. */
  inverterFast: {
    kind: 'inverting transistor',
    gateResistor: '47 ohm ±1 %',
    baseResistor: '1 kohm ±1 %',
    basePullDown: '2.2 kohm ±1 %',
    highLevel: 2.3,
    pull: { at: 'gate', resistance: '1 kohm ±1 %' },
    resetPull: '30 kohm',
  },
  /** The same with 10 kilohm: sparing, and slow to switch off. */
  inverterSlow: {
    kind: 'inverting transistor',
    gateResistor: '47 ohm ±1 %',
    baseResistor: '4.7 kohm ±1 %',
    basePullDown: '10 kohm ±1 %',
    highLevel: 2.3,
    pull: { at: 'gate', resistance: '10 kohm ±1 %' },
  },
  /** Controller pin straight to a gate. */
  pin: {
    kind: 'pin',
    gateResistor: '150 ohm ±1 %',
    resistance: '40 ohm ±15 ohm',
    sinkResistance: '35 ohm ±15 ohm',
    currentMaximum: '40 mA',
    pull: { at: 'drive', resistance: '1.5 kohm ±1 %' },
    resetPull: '30 kohm',
  },
  /** Driver circuit on the rail. */
  driver: {
    kind: 'driver',
    gateResistor: '4.7 ohm ±1 %',
    resistance: '3 ohm ±1 ohm',
    sinkResistance: '2 ohm ±1 ohm',
    currentMaximum: '2 A',
    supplyMinimum: 2,
    pull: { at: 'gate', resistance: '10 kohm ±1 %' },
  },
} as const satisfies Record<string, Drive>

/** The sailmaker's hot knife: one cell, a blade of 0.7 ohm, a P-channel switch on the high side. Invented parts. */
export const exampleChoice = {
  transistor: exampleTransistors.pChannelLowVoltage,
  drive: exampleDrives.inverterFast,
  load: { resistance: '0.7 ohm ±5 %' },
  pwm: { frequency: '100 Hz', duty: { from: 0.05, to: 0.95 } },
  thermal: { copperSquareMillimetres: 250 },
  wiring: { inductance: '0.3 uH' },
} as const satisfies MosfetChoice

/** One lithium-ion cell from full to empty, its path cold and aged at the upper limit; warm air inside the case. */
export const exampleConditions = {
  openCircuit: { from: 3, to: 4.2 },
  sourceResistance: '90 mohm ±30 mohm',
  ambientCelsius: { from: 0, to: 50 },
} as const satisfies MosfetConditions
