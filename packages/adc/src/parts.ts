import {
  exactly,
  type Given,
  joined,
  kinds,
  type PartFields,
  part,
  type Read,
  readPart,
  readRecord,
  type Spread,
  word,
} from '@ohmward/quantity'
import { codeHalf, inputHalf, type Transitions } from './convert.js'

/** What a converter's data sheet states, by the words of its fields; limits over the temperature range. */
export const converterFields = {
  offset: { symbol: 'e_offset', unit: 'LSB', magnitude: true, max: 1e6, meaning: 'largest offset error' },
  gain: {
    symbol: 'e_gain',
    unit: '1',
    min: -0.5,
    max: 0.5,
    magnitude: true,
    meaning: "largest gain error without the reference's, as a share of full scale",
  },
  nonlinearity: {
    symbol: 'e_INL',
    unit: 'LSB',
    magnitude: true,
    max: 1e6,
    meaning: 'largest integral nonlinearity; or total unadjusted error, with offset and gain 0',
  },
  noise: { symbol: 'n_rms', unit: 'LSB', min: 0, max: 1e6, meaning: 'rms noise of one conversion' },
  switchResistance: {
    symbol: 'R_sw',
    unit: 'ohm',
    min: 0,
    max: 1e7,
    meaning: 'largest resistance of the sampling switch',
  },
  samplingCapacitance: {
    symbol: 'C_sh',
    unit: 'F',
    min: 1e-18,
    max: 1e-6,
    meaning: 'largest sampling capacitance',
  },
  acquisitionTime: { symbol: 't_acq', unit: 's', min: 1e-12, max: 10, meaning: 'shortest sampling time' },
  conversionTime: { symbol: 't_conv', unit: 's', min: 0, max: 10, meaning: 'longest conversion time' },
  leakage: { symbol: 'I_leak', unit: 'A', magnitude: true, max: 1e-3, otherwise: 0, meaning: 'largest pin leakage' },
} as const satisfies PartFields

const absoluteFields = {
  voltage: { symbol: 'V_ref0', unit: 'V', min: 1e-3, max: 60, meaning: 'reference with tolerance' },
  drift: {
    symbol: 'TC_ref',
    unit: '1/K',
    magnitude: true,
    max: 5e-3,
    otherwise: 0,
    meaning: 'largest temperature coefficient',
  },
} as const satisfies PartFields

const settings = {
  bits: /*#__PURE__*/ exactly({
    symbol: 'N_bits',
    unit: 'bit',
    min: 1,
    max: 32,
    integer: true,
    meaning: 'resolution in bits',
  }),
  transitions: /*#__PURE__*/ word(['truncating', 'centred'], {
    otherwise: 'truncating',
    meaning: 'first transition at one count, truncating, or at half of one, centred',
  }),
  reference: /*#__PURE__*/ kinds(
    { rail: {}, absolute: absoluteFields },
    { meaning: 'reference of the converter: the rail, ratiometric with what it excites, or a voltage of its own' },
  ),
} as const

/** Every field of a converter, by its words. */
export const converterRecord = /*#__PURE__*/ joined(settings, converterFields)

/** What the codes are counted against. `rail` is ratiometric: the rail is one variable, shared with what it excites. */
export type ReferenceInput = Given<typeof settings>['reference']

/** A converter as its user writes it. */
export type Converter = Given<typeof converterRecord>

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

/** A converter as a field of a choice. */
export const converterField = /*#__PURE__*/ part(converterRecord, {
  meaning: 'converter, as its data sheet states it',
  as: (read: Read<typeof converterRecord>): ReadConverter => {
    const { bits, transitions, reference } = read
    return {
      bits,
      transitions,
      h_in: inputHalf(transitions),
      h_code: codeHalf(transitions),
      spreads: bySymbol(read, converterFields),
      reference:
        reference.kind === 'rail' ? reference : { kind: reference.kind, ...bySymbol(reference, absoluteFields) },
    }
  },
})

/**
 * Reads a converter.
 *
 * @param field - where it is, in the caller's words: `converter`
 * @throws InputError naming the field: bits that aren't whole or outside 1 to 32, a reference of 0 V, fields missing
 */
export function readConverter(input: unknown, field = 'converter'): ReadConverter {
  return converterField.as(readRecord({ fields: converterRecord }, input, field, `${field}.`))
}

/** Spreads under their symbols. */
function bySymbol<const F extends PartFields>(spreads: { readonly [W in keyof F]: Spread }, fields: F): BySymbol<F> {
  return Object.fromEntries(Object.keys(fields).map((name) => [fields[name]!.symbol, spreads[name]])) as BySymbol<F>
}

/** Reads a part and files its spreads under their symbols. Throws InputError as `readPart` does. */
export function readBySymbol<const F extends PartFields>(input: unknown, fields: F, field: string): BySymbol<F> {
  return bySymbol(readPart(input, fields, field), fields)
}
