import { type Given, kinds, type Read, readRecord, record, spread } from '@ohmward/quantity'
import { cellFields, cellRecord } from '../cell/fields.js'
import { pathField } from '../path/fields.js'

/** A port or a bench supply: it holds its voltage up to its current limit, and from there its current. */
export const portFields = {
  voltage: /*#__PURE__*/ spread({
    symbol: 'V_port',
    unit: 'V',
    above: 0,
    max: 1000,
    meaning: 'open-circuit voltage with its tolerance',
  }),
  currentLimit: /*#__PURE__*/ spread({
    symbol: 'I_lim',
    unit: 'A',
    above: 0,
    max: 1e4,
    meaning: 'current at which it limits, with its spread',
  }),
  leadResistance: /*#__PURE__*/ spread({
    symbol: 'R_lead',
    unit: 'ohm',
    min: 0,
    max: 100,
    meaning: 'resistance of the supply and its leads or cable, there and back',
  }),
  leadInductance: /*#__PURE__*/ spread({
    symbol: 'L_lead',
    unit: 'H',
    min: 0,
    max: 1e-3,
    otherwise: 1e-6,
    meaning: 'inductance of its leads: about 1 µH for each metre, there and back (common practice, no source)',
  }),
  attachable: /*#__PURE__*/ spread({
    symbol: 'C_att',
    unit: 'F',
    above: 0,
    max: 1,
    otherwise: 10e-6,
    meaning: 'capacitance that may be plugged onto it without a soft start',
  }),
} as const

/** What feeds the main rail: a source, and the power path behind it. */
export const supplyFields = {
  source: /*#__PURE__*/ kinds(
    { cell: cellFields, port: portFields },
    {
      meaning: 'cells, or a port or bench supply',
      check: (read: { readonly kind: string }, field: string, given: unknown) => {
        if (read.kind === 'cell') cellRecord.check?.(read, field, given)
      },
    },
  ),
  path: pathField,
  inductance: /*#__PURE__*/ spread({
    symbol: 'L_path',
    unit: 'H',
    min: 0,
    max: 1e-3,
    otherwise: '100 nH ±50 %',
    meaning: 'inductance of the loop of the power path (about 10 nH each centimetre: common practice, no source)',
  }),
} as const

/** A supply, as a record. */
export const supplyRecord = /*#__PURE__*/ record(supplyFields)

/** A supply as its user writes it. */
export type Supply = Given<typeof supplyRecord>

/** A supply that was read, in SI units. */
export type ReadSupply = Read<typeof supplyRecord>

/**
 * Reads a supply.
 *
 * @param field - where it is, in the caller's words: `supply`
 * @throws InputError naming the field, as {@link readCell} does for a cell; two elements of the path of one name
 */
export const readSupply = (given: unknown, field = 'supply'): ReadSupply =>
  readRecord(supplyRecord, given, field, `${field}.`)
