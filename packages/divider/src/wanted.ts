import { InputError, missingFields, own, readNumber } from '@ohmward/quantity'

/** The loads at which the error is held: both ends of the range, and the one of the design. */
export const sizes = ['smallest', 'nominal', 'largest'] as const

/** One of the loads at which the error is held. */
export type Size = (typeof sizes)[number]

/** An error wanted, read: a share of the reading or a resistance, in ohms. */
export interface WantedError {
  readonly kind: 'share' | 'ohm'
  readonly value: number
}

/** The errors wanted, read; where none is wanted nothing is held. */
export type WantedErrors = Readonly<Partial<Record<Size, WantedError>>>

/** An error as its user writes it: for all three loads alike, or for each its own. */
type GivenError = string | { readonly [size in Size]?: string | undefined }

const one = { type: 'string' } as const

/** The field of the largest error wanted. */
export const wantedError = /*#__PURE__*/ own<GivenError>()(readErrors, {
  schema: {
    anyOf: [
      one,
      {
        type: 'object',
        properties: { smallest: one, nominal: one, largest: one },
        minProperties: 1,
        additionalProperties: false,
      },
    ],
  },
  meaning:
    'largest error allowed: a share of the reading such as "3 %", or a resistance such as "20 mohm". It is checked at the smallest, the nominal and the largest load alike, or at each its own (as {"nominal": "2 %", "largest": "50 mohm"}: where none is given nothing is checked)',
})

function readErrors(given: unknown, field: string): WantedErrors {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) {
    const alike = readError(given, field)
    return { smallest: alike, nominal: alike, largest: alike }
  }
  const own = missingFields(given, [], field, sizes)
  const read = sizes.flatMap((size) =>
    own[size] === undefined ? [] : [[size, readError(own[size], `${field}.${size}`)] as const],
  )
  if (read.length > 0) return Object.fromEntries(read)
  throw new InputError({ field, value: given, allowed: 'an error at one load at least: smallest, nominal or largest' })
}

/** One error: `'3 %'` is a share, `'20 mohm'` a resistance; a bare number could be either. */
function readError(given: unknown, field: string): WantedError {
  if (typeof given !== 'string' || +given >= 0)
    throw new InputError({
      field,
      value: given,
      allowed: 'a share of the reading such as "3 %", or a resistance such as "20 mohm"',
    })
  return given.trim().endsWith('%')
    ? { kind: 'share', value: readNumber(given, { field, unit: '1', above: 0, max: 1 }) }
    : { kind: 'ohm', value: readNumber(given, { field, unit: 'ohm', above: 0, max: 100 }) }
}
