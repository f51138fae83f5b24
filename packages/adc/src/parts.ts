import { InputError, missingFields, type PartFields, type PartInput, readPart, type Spread } from '@ohmward/quantity'
import { codeHalf, inputHalf, readBits, type Transitions, validTransitions } from './convert.js'

/** What a converter's data sheet states, by the words of its fields; limits over the temperature range. */
export const converterFields = {
  offset: { symbol: 'e_offset', unit: 'LSB', magnitude: true, meaning: 'offset error, largest' },
  gain: {
    symbol: 'e_gain',
    unit: '1',
    min: -0.5,
    max: 0.5,
    magnitude: true,
    meaning: 'gain error, largest, reference apart; counts over 2^N',
  },
  nonlinearity: {
    symbol: 'e_INL',
    unit: 'LSB',
    magnitude: true,
    meaning: 'integral nonlinearity, largest; or total error, offset and gain 0',
  },
  noise: { symbol: 'n_rms', unit: 'LSB', min: 0, max: 1e6, meaning: 'rms noise of one conversion' },
  switchResistance: { symbol: 'R_sw', unit: 'ohm', min: 0, meaning: 'sampling switch, largest' },
  samplingCapacitance: { symbol: 'C_sh', unit: 'F', above: 0, meaning: 'sampling capacitance, largest' },
  acquisitionTime: { symbol: 't_acq', unit: 's', above: 0, meaning: 'sampling time, shortest' },
  conversionTime: { symbol: 't_conv', unit: 's', min: 0, meaning: 'conversion time, longest' },
  leakage: { symbol: 'I_leak', unit: 'A', magnitude: true, otherwise: 0, meaning: 'pin leakage, largest' },
} as const satisfies PartFields

const absoluteFields = {
  voltage: { symbol: 'V_ref0', unit: 'V', above: 0, meaning: 'reference with tolerance' },
  drift: { symbol: 'TC_ref', unit: '1/K', magnitude: true, otherwise: 0, meaning: 'temperature coefficient, largest' },
} as const satisfies PartFields

/** What the codes are counted against. `rail` is ratiometric: the rail is one variable, shared with what it excites. */
export type ReferenceInput =
  | { readonly kind: 'rail' }
  | ({ readonly kind: 'absolute' } & PartInput<typeof absoluteFields>)

/** A converter as its user writes it. */
export type Converter = PartInput<typeof converterFields> & {
  /** Whole, 1 to 32. */
  readonly bits: number | string
  /** `truncating` unless told. */
  readonly transitions?: Transitions
  readonly reference: ReferenceInput
}

/** The spreads of a part's fields by their symbols. */
export type BySymbol<F extends PartFields> = { readonly [W in keyof F as F[W]['symbol']]: Spread }

/** A converter that was read: plain settings, and every spread by its symbol. */
export interface ReadConverter {
  readonly bits: number
  readonly transitions: Transitions
  /** Half count that moves the transitions, 0 or 0.5. */
  readonly h_in: number
  /** Half count that firmware adds to a code, 0.5 or 0. */
  readonly h_code: number
  readonly spreads: BySymbol<typeof converterFields>
  readonly reference: { readonly kind: 'rail' } | ({ readonly kind: 'absolute' } & BySymbol<typeof absoluteFields>)
}

/**
 * Reads a converter.
 *
 * @param field - where it is, in the caller's words: `converter`
 * @throws InputError naming the field: bits that aren't whole or outside 1 to 32, a reference of 0 V, fields missing
 */
export function readConverter(input: unknown, field = 'converter'): ReadConverter {
  const own = ['bits', 'reference'] as const
  const words = Object.keys(converterFields)
  const required = words.filter((word) => !('otherwise' in converterFields[word as keyof typeof converterFields]))
  const given = missingFields(input, [...own, ...required], field, ['transitions', ...words])
  const { bits: N, reference, transitions: steps, ...rest } = given
  const bits = readBits(N, `${field}.bits`)
  const transitions = validTransitions(steps, `${field}.transitions`)
  return {
    bits,
    transitions,
    h_in: inputHalf(transitions),
    h_code: codeHalf(transitions),
    spreads: readBySymbol(rest, converterFields, field),
    reference: readReference(reference, `${field}.reference`),
  }
}

function readReference(input: unknown, field: string): ReadConverter['reference'] {
  const { kind, ...rest } = missingFields(input, ['kind'], field, ['voltage', 'drift'])
  if (kind === 'absolute') return { kind, ...readBySymbol(rest, absoluteFields, field) }
  if (kind !== 'rail') throw new InputError({ field: `${field}.kind`, value: kind, allowed: '"rail" or "absolute"' })
  missingFields(input, ['kind'], field)
  return { kind }
}

/** Reads a part and files its spreads under their symbols. Throws InputError as `readPart` does. */
export function readBySymbol<const F extends PartFields>(input: unknown, fields: F, field: string): BySymbol<F> {
  const spreads = readPart(input, fields, field)
  return Object.fromEntries(Object.keys(fields).map((word) => [fields[word]!.symbol, spreads[word]])) as BySymbol<F>
}
