import { exampleSupply } from '@ohmward/supply'
import type { DecouplingChoice, DecouplingConditions } from '../choice/choice.js'
import type { Capacitor, PlainSource } from './index.js'

/**
 * Capacitors by class, invented: no part on the market has just these figures. Each stands at what is usual for its
 * class; replace them by those of your part's data sheet.
 */
export const exampleCapacitors = {
  /** Wet aluminium, miniature, low impedance: much capacitance for its volume, and useless when cold. */
  wetAluminium: {
    name: 'wet aluminium 1000 uF',
    capacitance: '1000 uF ±20 %',
    ratedVoltage: 10,
    seriesResistance: '60 mohm',
    seriesInductance: 0,
    cold: [
      { celsius: -40, factor: 30 },
      { celsius: -20, factor: 6 },
      { celsius: 0, factor: 2.2 },
      { celsius: 20, factor: 1 },
      { celsius: 105, factor: 0.7 },
    ],
    temperature: [
      { celsius: -40, factor: 0.5 },
      { celsius: -20, factor: 0.8 },
      { celsius: 20, factor: 1 },
      { celsius: 105, factor: 1.05 },
    ],
    wornCapacitance: 0.8,
    wornResistance: 2,
    rippleCurrent: '0.8 A',
    thermalResistance: 60,
    lifeHours: 3000,
    volume: 650,
  },
  /** Polymer aluminium: nearly flat over temperature. */
  polymer: {
    name: 'polymer 470 uF',
    capacitance: '470 uF ±20 %',
    ratedVoltage: 6.3,
    seriesResistance: '12 mohm',
    cold: [
      { celsius: -55, factor: 1.2 },
      { celsius: 20, factor: 1 },
      { celsius: 105, factor: 1 },
    ],
    wornCapacitance: 0.8,
    wornResistance: 1.5,
    rippleCurrent: '4 A',
    thermalResistance: 50,
    lifeHours: 2000,
    volume: 320,
  },
  /** Class II ceramic, 1206: half of it is gone at the rail. */
  ceramic: {
    name: 'ceramic X5R 47 uF',
    capacitance: '47 uF ±20 %',
    ratedVoltage: 6.3,
    seriesResistance: '3 mohm',
    bias: [
      { volts: 0, factor: 1 },
      { volts: 2, factor: 0.86 },
      { volts: 3, factor: 0.68 },
      { volts: 4.2, factor: 0.45 },
      { volts: 6.3, factor: 0.24 },
    ],
    temperature: [
      { celsius: -55, factor: 0.85 },
      { celsius: 25, factor: 1 },
      { celsius: 85, factor: 0.85 },
    ],
    ageing: 0.05,
    rippleCurrent: '4 A',
    thermalResistance: 90,
    volume: 12,
  },
} as const satisfies Record<string, Capacitor>

/** A weak port with a thin cable, as plain numbers; invented. */
export const examplePort = {
  openCircuit: '5 V ±5 %',
  resistance: '0.25 ohm ±20 %',
  currentLimit: '0.5 A +20/-0 %',
} as const satisfies PlainSource

/**
 * The sailmaker's cordless hot knife, its rail: one cell, a blade of 0.7 ohm that is switched on, and a controller on the same
 * rail. Invented parts. Its brown-out is left where it was set for a fuller cell: the blade resets it as the cell empties.
 */
export const exampleChoice = /*#__PURE__*/ (() =>
  ({
    source: exampleSupply,
    tap: 'board',
    capacitors: [{ ...exampleCapacitors.polymer, count: 2 }, exampleCapacitors.ceramic],
    load: { resistance: '0.7 ohm ±5 %', rise: '20 us' },
    idle: '12 mA',
    limits: { brownOut: '2.7 V ±3 %', clock: '1.8 V', sensor: '2.4 V' },
    insertion: {
      contactSurge: '150 A',
      shortVoltage: '0.6 V ±0.1 V',
      shortDelay: '200 us',
      railMaximum: '6 V',
    },
  }) as const satisfies DecouplingChoice)()

/** One cell from full to a tenth of its charge; cool to warm, new to five years old. */
export const exampleConditions = {
  charge: { from: 0.1, to: 1 },
  ambientCelsius: { from: '0 degC', to: '50 degC' },
  ageYears: { from: 0, to: 5 },
} as const satisfies DecouplingConditions
