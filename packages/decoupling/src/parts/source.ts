import { type Given, InputError, part, type Read, spread } from '@ohmward/quantity'
import { supplyFields } from '@ohmward/supply'

/** A source as plain numbers: what stands on a label, or was measured at the rail. */
export const plainSourceFields = {
  openCircuit: /*#__PURE__*/ spread({
    symbol: 'V_oc',
    unit: 'V',
    above: 0,
    max: 100,
    optional: true,
    meaning: 'open-circuit voltage with its tolerance, in place of the range among the conditions',
  }),
  resistance: /*#__PURE__*/ spread({
    symbol: 'R_s',
    unit: 'ohm',
    min: 0,
    max: 100,
    meaning: 'resistance from the source to the rail, there and back, with its spread over cold, age and charge',
  }),
  inductance: /*#__PURE__*/ spread({
    symbol: 'L',
    unit: 'H',
    min: 0,
    max: 1e-3,
    otherwise: 0,
    meaning: 'inductance of the loop: about 1 µH for each metre of wire, there and back',
  }),
  currentLimit: /*#__PURE__*/ spread({
    symbol: 'I_lim',
    unit: 'A',
    above: 0,
    max: 1e4,
    optional: true,
    meaning: 'current at its limit, least and most; without it there is no limit',
  }),
  attachable: /*#__PURE__*/ spread({
    symbol: 'C_att',
    unit: 'F',
    above: 0,
    max: 1,
    otherwise: 10e-6,
    meaning: 'capacitance that may be plugged onto a source with a limit without a soft start',
  }),
} as const

/** A source as plain numbers, as its user writes it. */
export type PlainSource = Given<typeof plainSourceFields>

/** Plain numbers that were read, in SI units. */
export type ReadPlain = Read<typeof plainSourceFields>

const meaning = 'what feeds the rail: a supply with its power path, or plain numbers'

/** Whether a source is written as plain numbers. */
export const isPlain = (given: unknown): boolean =>
  typeof given === 'object' && given !== null && Object.hasOwn(given, 'resistance')

/** A source with its power path. */
export const supplyPart = /*#__PURE__*/ part(supplyFields, { meaning })

const plainPart = /*#__PURE__*/ part(plainSourceFields, { meaning, check: limited })

/** The fields of a source as it is written. */
export const sourcePart = (given: unknown) => (isPlain(given) ? plainPart : supplyPart)

/** A limit without any resistance would let a current jump. */
function limited({ resistance, currentLimit }: ReadPlain, field: string): void {
  if (currentLimit === undefined || resistance.lower > 0) return
  throw new InputError({
    field: `${field}.resistance`,
    value: resistance.lower,
    unit: 'ohm',
    allowed: 'more than 0 ohm',
  })
}
