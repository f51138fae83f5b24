import { exampleConverters } from '@ohmward/adc'
import { exampleCapacitors } from '@ohmward/decoupling'
import { exampleAmplifiers } from '@ohmward/divider'
import { exampleSensors } from '@ohmward/hall'
import { exampleDrives, exampleTransistors } from '@ohmward/mosfet'
import { exampleSupply } from '@ohmward/supply'
import type { Design } from './record.js'

/**
 * The sailmaker's cordless hot knife: one cell, a blade of 0.7 ohm, a P-channel switch on the high side. Invented parts,
 * each typical of its class. It fails in two ways that can be mended: as the cell empties the amplifier has no room left above
 * its largest reading, so that an open load looks like a load; and the cold cell sags below the sensor's lowest supply.
 */
export const exampleDesign = /*#__PURE__*/ (() =>
  ({
    version: 1,
    name: "sailmaker's hot knife",
    supply: exampleSupply,
    board: 'board',
    load: { resistance: '0.7 ohm ±5 %', rise: '20 us' },
    pwm: { frequency: '100 Hz', duty: { from: 0.1, to: 0.9 } },
    divider: {
      load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
      error: '35 %',
      reference: '47 ohm ±0.1 %',
      gainResistors: { feedback: '15 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
      excitationSwitch: { resistance: '0.5 ohm ±20 %', currentLimit: '0.2 A' },
      surroundings: { leadResistance: '20 mohm ±50 %' },
      amplifier: exampleAmplifiers.bipolarSingleSupply,
      converter: exampleConverters['12-bit controller converter'],
      timing: { wait: '0.5 ms' },
    },
    hall: {
      sensor: exampleSensors.wideSupplyOneWay,
      converter: exampleConverters['12-bit controller converter'],
      current: { from: '0 A', to: '6.5 A' },
      errors: [
        { at: '1 A', allowed: '0.3 A' },
        { at: '6 A', allowed: '8 %' },
      ],
      filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
      calibration: { kind: 'zero' },
      trip: { current: '8 A', normal: '6.5 A', withstand: '10 A' },
    },
    mosfet: {
      transistor: exampleTransistors['P-channel, driven from 1.8 V'],
      drive: exampleDrives['NPN and pull-up of 1 kohm'],
      thermal: { copperSquareMillimetres: 250 },
      wiring: { inductance: '0.3 uH' },
    },
    decoupling: {
      capacitors: [{ ...exampleCapacitors.polymer, count: 2 }, exampleCapacitors.ceramic],
      insertion: { contactSurge: '150 A', railMaximum: '6 V' },
    },
    controller: {
      brownOut: '2.1 V ±5 %',
      lowestSupply: '1.8 V',
      current: '12 mA',
      internalReference: { voltage: '1.1 V ±9 %' },
    },
    monitor: {
      reads: 'at rest',
      warning: '3.4 V',
      reduction: '3.3 V',
      stop: '3.2 V',
      latch: '3.1 V',
      calibration: '1 %',
    },
    bursts: { time: '20 s', watchdog: '30 s', stuckEnergy: '800 J' },
    standby: [
      { name: 'controller asleep', current: '8 uA ±50 %' },
      { name: 'protection', current: '4 uA ±50 %' },
      { name: 'divider of the cell voltage', resistance: '2 Mohm' },
    ],
    requirements: { usableCharge: 0.9, standbyDays: 180, powerLimit: '20 W', powerError: '25 %' },
    ambientCelsius: { from: '0 degC', to: '50 degC' },
  }) as const satisfies Design)()
