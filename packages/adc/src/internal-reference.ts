import type { PartFields, PartInput } from '@ohmward/quantity'
import { type BySymbol, readBySymbol } from './parts.js'

/** What a controller's data sheet states of the reference inside it. */
export const internalReferenceFields = {
  voltage: { symbol: 'V_bg', unit: 'V', above: 0, max: 60, meaning: 'voltage with its limits, uncalibrated' },
  drift: {
    symbol: 'TC_bg',
    unit: '1/K',
    magnitude: true,
    max: 1e-3,
    otherwise: 0,
    meaning: 'largest temperature coefficient',
  },
  startUp: { symbol: 't_start', unit: 's', min: 0, max: 10, meaning: 'longest start-up time' },
  resistance: { symbol: 'R_refint', unit: 'ohm', min: 0, max: 1e9, otherwise: 0, meaning: 'resistance before its pin' },
  capacitance: { symbol: 'C_refpin', unit: 'F', min: 0, max: 1, otherwise: 0, meaning: 'capacitor at its pin' },
} as const satisfies PartFields

/** The reference inside a controller, against which its rail can be read, as its user writes it. */
export type InternalReference = PartInput<typeof internalReferenceFields>

/** The same, read: its spreads by their symbols. */
export type ReadInternalReference = BySymbol<typeof internalReferenceFields>

/** Reads an internal reference. Throws InputError naming the field, a voltage of 0 among them. */
export const readInternalReference = (input: unknown, field = 'internalReference'): ReadInternalReference =>
  readBySymbol(input, internalReferenceFields, field)
