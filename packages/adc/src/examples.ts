import type { InternalReference } from './internal-reference.js'
import type { Converter } from './parts.js'

/** Converters by class. Invented: typical of their class, no product's figures. Put your data sheet's in their place. */
export const exampleConverters = {
  '10-bit controller converter': {
    bits: 10,
    reference: { kind: 'rail' },
    offset: '2 LSB',
    gain: '0.2 %',
    nonlinearity: '1 LSB',
    noise: '0.3 LSB',
    switchResistance: '10 kohm',
    samplingCapacitance: '15 pF',
    acquisitionTime: '12 us',
    conversionTime: '92 us',
    leakage: '50 nA',
  },
  '12-bit controller converter': {
    bits: 12,
    reference: { kind: 'rail' },
    offset: '3 LSB',
    gain: '0.1 %',
    nonlinearity: '2 LSB',
    noise: '0.7 LSB',
    switchResistance: '1 kohm',
    samplingCapacitance: '8 pF',
    acquisitionTime: '2 us',
    conversionTime: '1 us',
    leakage: '50 nA',
  },
  '12-bit converter with its own reference': {
    bits: 12,
    reference: { kind: 'absolute', voltage: '2.5 V ±0.2 %', drift: '50 ppm/K' },
    offset: '2 LSB',
    gain: '0.05 %',
    nonlinearity: '1 LSB',
    noise: '0.4 LSB',
    switchResistance: '500 ohm',
    samplingCapacitance: '20 pF',
    acquisitionTime: '1 us',
    conversionTime: '4 us',
    leakage: '100 nA',
  },
} as const satisfies Record<string, Converter>

/** References inside controllers, by class. Invented as the converters are. */
export const exampleInternalReferences = {
  'untrimmed reference': { voltage: '1.1 V ±9 %', drift: '150 ppm/K', startUp: '70 us' },
  'trimmed reference': { voltage: '1.21 V ±2 %', drift: '100 ppm/K', startUp: '20 us' },
} as const satisfies Record<string, InternalReference>
