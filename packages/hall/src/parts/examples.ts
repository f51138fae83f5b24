import { exampleConverters } from '@ohmward/adc'
import type { HallChoice, HallConditions } from '../choice.js'
import type { Sensor } from './sensor.js'

/**
 * Current sensors by class, invented: no part on the market has just these limits. Each field stands at what is usual
 * for its class, as limits from -20 to 85 °C; replace them by those of your part's data sheet.
 */
export const exampleSensors = {
  /** Works from one cell directly, measures one way: zero near ground, so the whole span is used. */
  wideSupplyOneWay: {
    output: 'ratiometric',
    sensitivity: '200 mV/A',
    zeroOutput: '0.33 V',
    ratedSupply: '3.3 V',
    supplyMinimum: '2.7 V',
    supplyMaximum: '5.5 V',
    supplyCurrent: '6 mA',
    ratedCurrent: '12.5 A',
    sensitivityError: '1 %',
    sensitivityDrift: '150 ppm/K',
    zeroError: '6 mV',
    zeroDrift: '60 uV/K',
    zeroSupplyError: '0.6 %',
    sensitivitySupplyError: '0.6 %',
    nonlinearity: '0.2 %',
    hysteresis: '0.05 %',
    noiseDensity: '14 uV/Hz^0.5',
    bandwidth: '120 kHz',
    lowOutput: '0.15 V',
    highOutputDrop: '0.15 V',
    conductorResistance: '1 mohm',
    conductorThermalResistance: '40 K/W',
    fieldCoupling: '1.1 mT/A',
    fieldRejectionDb: 40,
  },
  /** The same, measuring both ways: zero in the middle, half the sensitivity. */
  wideSupplyTwoWay: {
    output: 'ratiometric',
    sensitivity: '100 mV/A',
    zeroOutput: '1.65 V',
    ratedSupply: '3.3 V',
    supplyMinimum: '2.7 V',
    supplyMaximum: '5.5 V',
    supplyCurrent: '6 mA',
    ratedCurrent: '12.5 A',
    sensitivityError: '1 %',
    sensitivityDrift: '150 ppm/K',
    zeroError: '6 mV',
    zeroDrift: '60 uV/K',
    zeroSupplyError: '0.6 %',
    sensitivitySupplyError: '0.6 %',
    nonlinearity: '0.2 %',
    hysteresis: '0.05 %',
    noiseDensity: '8 uV/Hz^0.5',
    bandwidth: '120 kHz',
    lowOutput: '0.15 V',
    highOutputDrop: '0.15 V',
    conductorResistance: '1 mohm',
    conductorThermalResistance: '40 K/W',
    fieldCoupling: '1.1 mT/A',
    fieldRejectionDb: 40,
  },
  /** The old 5 V class, both ways, a single element: its supply begins where a cell ends. */
  fiveVoltTwoWay: {
    output: 'ratiometric',
    sensitivity: '100 mV/A',
    zeroOutput: '2.5 V',
    ratedSupply: '5 V',
    supplyMinimum: '4.5 V',
    supplyMaximum: '5.5 V',
    supplyCurrent: '13 mA',
    ratedCurrent: '20 A',
    sensitivityError: '1.5 %',
    sensitivityDrift: '250 ppm/K',
    zeroError: '40 mV',
    zeroDrift: '300 uV/K',
    zeroSupplyError: '1 %',
    sensitivitySupplyError: '1 %',
    nonlinearity: '1.5 %',
    hysteresis: '0.5 %',
    noiseDensity: '40 uV/Hz^0.5',
    bandwidth: '80 kHz',
    lowOutput: '0.3 V',
    highOutputDrop: '0.3 V',
    conductorResistance: '1.2 mohm',
    conductorThermalResistance: '50 K/W',
    fieldCoupling: '1.2 mT/A',
  },
  /** 5 V, fixed output, one way: its zero and sensitivity keep whatever the supply, so a converter with its own reference reads it. */
  fiveVoltFixedOneWay: {
    output: 'fixed',
    sensitivity: '400 mV/A',
    zeroOutput: '0.5 V',
    ratedSupply: '5 V',
    supplyMinimum: '4.5 V',
    supplyMaximum: '5.5 V',
    supplyCurrent: '10 mA',
    ratedCurrent: '10 A',
    sensitivityError: '0.8 %',
    sensitivityDrift: '100 ppm/K',
    zeroError: '8 mV',
    zeroDrift: '80 uV/K',
    zeroSupplyError: '0.5 %',
    sensitivitySupplyError: '0.3 %',
    nonlinearity: '0.3 %',
    hysteresis: '0.1 %',
    noiseDensity: '20 uV/Hz^0.5',
    bandwidth: '100 kHz',
    lowOutput: '0.2 V',
    highOutputDrop: '0.2 V',
    conductorResistance: '1 mohm',
    conductorThermalResistance: '40 K/W',
    fieldCoupling: '1.1 mT/A',
    fieldRejectionDb: 40,
  },
} as const satisfies Record<string, Sensor>

/** The sailmaker's cordless hot knife, its current reading: sensor and converter on the cell, the blade under PWM. Invented parts. */
export const exampleChoice = /*#__PURE__*/ (() =>
  ({
    sensor: { ...exampleSensors.wideSupplyOneWay, supplyMinimum: '2.4 V' },
    converter: exampleConverters['12-bit controller converter'],
    current: { from: '0 A', to: '6.5 A' },
    errors: [
      { at: '1 A', allowed: '0.3 A' },
      { at: '6 A', allowed: '8 %' },
    ],
    pwm: { frequency: '100 Hz', duty: { from: 0.1, to: 0.9 } },
    wait: '0.6 ms',
    filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
    calibration: { kind: 'zero' },
    power: 'squared reading',
    divideFrom: '1 A',
    trip: { current: '8 A', normal: '6.5 A', withstand: '10 A' },
    otherTasks: [
      { name: 'resistance', window: 'off', recovery: 0, settling: '0.5 ms', acquisition: '2 us', conversion: '1 us' },
      { name: 'rail', window: 'off', recovery: 0, settling: 0, acquisition: '2 us', conversion: '1 us' },
      {
        name: 'rail under load',
        window: 'on',
        recovery: 0,
        settling: '0.6 ms',
        acquisition: '2 us',
        conversion: '1 us',
      },
    ],
  }) as const satisfies HallChoice)()

/** The rail while the blade is on, from a full cell to a cold, aged one with a tenth of its charge. */
export const exampleConditions = {
  rail: { from: '2.49 V', to: '4.09 V' },
  ambientCelsius: { from: '0 degC', to: '50 degC' },
} as const satisfies HallConditions
