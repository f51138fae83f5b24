import { exampleConverters } from '@ohmward/adc'
import * as decoupling from '@ohmward/decoupling'
import * as divider from '@ohmward/divider'
import * as hall from '@ohmward/hall'
import * as mosfet from '@ohmward/mosfet'

const cell = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

const blade = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '3 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  amplifier: divider.exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
} as const

const current = {
  sensor: hall.exampleSensors.wideSupplyOneWay,
  converter: exampleConverters['12-bit controller converter'],
  current: { from: 0, to: '6 A' },
  errors: [
    { at: '1 A', allowed: '0.25 A' },
    { at: '6 A', allowed: '6 %' },
  ],
  pwm: { frequency: '1 kHz', duty: { from: '10 %', to: '90 %' } },
  filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
  calibration: { kind: 'zero' },
  trip: { current: '8 A', normal: '6.5 A', withstand: '10 A' },
} as const

/** The sailmaker's hot knife as the READMEs and the pages have it, block by block. */
export const examples = {
  divider: [
    ['hot knife', divider.exampleChoice, divider.exampleConditions],
    ['README', blade, { ...cell, rail: { from: '2.8 V', to: '4.2 V' } }],
    ['README of the package', { ...blade, error: '5 %' }, cell],
    ['bipolar amplifier', { ...blade, amplifier: divider.exampleAmplifiers.bipolarSingleSupply }, cell],
    ['load at rail', { ...blade, topology: 'load at rail' }, cell],
  ],
  hall: [
    ['hot knife', hall.exampleChoice, hall.exampleConditions],
    ['averaged', { ...current, reading: 'averaged', filter: { resistance: '10 kohm', capacitance: '1 uF' } }, cell],
    ['zero each time', { ...current, calibration: { kind: 'zero each time' } }, cell],
  ],
  mosfet: [
    ['hot knife', mosfet.exampleChoice, mosfet.exampleConditions],
    [
      'slow drive',
      { ...mosfet.exampleChoice, drive: mosfet.exampleDrives['NPN and pull-up of 10 kohm'] },
      mosfet.exampleConditions,
    ],
    [
      'low side',
      {
        ...mosfet.exampleChoice,
        transistor: mosfet.exampleTransistors['N-channel, driven from 1.8 V'],
        drive: mosfet.exampleDrives['controller pin'],
      },
      mosfet.exampleConditions,
    ],
  ],
  decoupling: [
    ['hot knife', decoupling.exampleChoice, decoupling.exampleConditions],
    [
      'weak port',
      {
        source: decoupling.examplePort,
        capacitors: decoupling.exampleChoice.capacitors,
        load: { current: '0.4 A', rise: '1 us' },
        limits: { brownOut: '2.7 V ±5 %' },
      },
      { ambientCelsius: { from: 0, to: 50 } },
    ],
  ],
} as const
