import { exampleConverters } from '@ohmward/adc'
import type { Amplifier } from './amplifier.js'
import type { DividerChoice, DividerConditions } from './choice.js'

/**
 * Amplifiers by class, invented: no part on the market has just these limits. Each field stands at what is usual for its
 * class, as limits from -20 to 70 °C; replace them by those of your part's data sheet.
 */
export const exampleAmplifiers = {
  /** Zero-drift, CMOS, rail-to-rail in and out: the class for millivolts. */
  zeroDrift: {
    offsetVoltage: '10 uV',
    offsetDrift: '50 nV/K',
    biasCurrent: '200 pA',
    offsetCurrent: '400 pA',
    openLoopGainDb: 110,
    commonModeRejectionDb: 106,
    supplyRejectionDb: 106,
    offsetSupply: '3.3 V',
    gainBandwidth: '1.5 MHz',
    slewRate: '0.7 V/us',
    highOutputDrop: '15 mV',
    lowOutput: '15 mV',
    sinkCurrent: '2 mA',
    commonModeLow: '-0.1 V',
    commonModeHighDrop: '-0.1 V',
    recovery: '50 us',
    noiseDensity: '60 nV/Hz^0.5',
    supplyMinimum: '1.8 V',
    supplyMaximum: '5.5 V',
  },
  /** General-purpose CMOS, rail-to-rail in and out: millivolts of offset. */
  cmosRailToRail: {
    offsetVoltage: '3 mV',
    offsetDrift: '8 uV/K',
    biasCurrent: '500 pA',
    offsetCurrent: '500 pA',
    openLoopGainDb: 90,
    commonModeRejectionDb: 60,
    supplyRejectionDb: 70,
    offsetSupply: '3.3 V',
    gainBandwidth: '1 MHz',
    slewRate: '0.5 V/us',
    highOutputDrop: '25 mV',
    lowOutput: '25 mV',
    sinkCurrent: '2 mA',
    commonModeLow: '-0.2 V',
    commonModeHighDrop: '-0.2 V',
    recovery: '10 us',
    noiseDensity: '60 nV/Hz^0.5',
    supplyMinimum: '1.8 V',
    supplyMaximum: '5.5 V',
  },
  /** Bipolar, single-supply: its output stops well below the rail, so it saturates as the cell empties. */
  bipolarSingleSupply: {
    offsetVoltage: '7 mV',
    offsetDrift: '10 uV/K',
    biasCurrent: '250 nA',
    offsetCurrent: '50 nA',
    openLoopGainDb: 86,
    commonModeRejectionDb: 65,
    supplyRejectionDb: 65,
    offsetSupply: '5 V',
    gainBandwidth: '0.7 MHz',
    slewRate: '0.3 V/us',
    highOutputDrop: '1.5 V',
    lowOutput: '20 mV',
    sinkCurrent: '10 uA',
    commonModeLow: '0 V',
    commonModeHighDrop: '2 V',
    recovery: '30 us',
    noiseDensity: '60 nV/Hz^0.5',
    supplyMinimum: '3 V',
    supplyMaximum: '32 V',
  },
} as const satisfies Record<string, Amplifier>

/**
 * The sailmaker's cordless hot knife, its resistance reading: a blade of 0.7 ohm, read while it is off. Invented parts. The
 * amplifier is precise, but its output stops 1.5 V below the rail, so that it saturates as the cell empties.
 */
export const exampleChoice = /*#__PURE__*/ (() =>
  ({
    load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
    error: '6 %',
    reference: '47 ohm ±0.1 %',
    gainResistors: { feedback: '22 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
    excitationSwitch: { resistance: '0.5 ohm ±20 %', currentLimit: '0.2 A' },
    surroundings: { leadResistance: '20 mohm ±50 %' },
    amplifier: {
      ...exampleAmplifiers.bipolarSingleSupply,
      offsetVoltage: '0.5 mV',
      offsetDrift: '3 uV/K',
      biasCurrent: '50 nA',
      offsetCurrent: '10 nA',
      openLoopGainDb: 100,
      commonModeRejectionDb: 80,
      supplyRejectionDb: 90,
      gainBandwidth: '1 MHz',
    },
    converter: exampleConverters['12-bit controller converter'],
    timing: { wait: '0.5 ms' },
  }) as const satisfies DividerChoice)()

/** The rail between two pulses, from a full cell at rest to a tenth of its charge, half a millisecond after a pulse; cool to warm air inside the case. */
export const exampleConditions = {
  rail: { from: '3.11 V', to: '4.23 V' },
  ambientCelsius: { from: '0 degC', to: '50 degC' },
} as const satisfies DividerConditions
