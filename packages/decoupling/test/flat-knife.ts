import type { Supply } from '@ohmward/supply'
import { type DecouplingChoice, type DecouplingConditions, exampleCapacitors } from '../src/index.js'

const element = (name: string, resistance: string) => ({ name, resistance, temperatureCoefficient: 'none' }) as const

/** A cell that cold and age change, but not its charge, on a path that nothing warms. */
export const flatSupply: Supply & { readonly source: { readonly kind: 'cell' } } = {
  source: {
    kind: 'cell',
    openCircuit: 'NMC 21700',
    capacity: '4 Ah',
    continuousCurrent: 30,
    resistance: '25 mohm ±20 %',
    chargeFactor: '0: 1, 1: 1',
    ageFactor: 1.8,
  },
  path: [
    element('cell contacts', '6 mohm ±4 mohm'),
    { ...element('protection', '12 mohm ±3 mohm'), tripVoltage: '0.2 V ±15 mV' },
    element('power switch', '12 mohm ±3 mohm'),
    element('wiring', '8 mohm ±20 %'),
  ],
  inductance: '0.3 uH ±30 %',
}

/** The hot knife on it: everything by hand from few numbers. */
export const flatKnife = {
  source: flatSupply,
  capacitors: [{ ...exampleCapacitors.polymer, count: 2 }, exampleCapacitors.ceramic],
  load: { resistance: '0.7 ohm ±5 %', rise: '20 us' },
  idle: '12 mA',
  limits: { brownOut: '2.1 V ±5 %', clock: '1.7 V', amplifier: '1.8 V' },
  insertion: {
    contactSurge: '150 A',
    shortVoltage: '0.6 V ±0.1 V',
    shortDelay: '200 us',
    railMaximum: '6 V',
  },
} as const satisfies DecouplingChoice

/** The same with limits that no capacitor holds. */
export const flatImpossible = {
  ...flatKnife,
  limits: { brownOut: '2.7 V ±5 %', clock: '2.4 V', sensor: '2.7 V' },
} as const satisfies DecouplingChoice

/** From full to empty, cool to warm, new to five years old. */
export const flatConditions = {
  openCircuit: { from: 3, to: 4.2 },
  ambientCelsius: { from: 0, to: 50 },
  ageYears: { from: 0, to: 5 },
} as const satisfies DecouplingConditions
