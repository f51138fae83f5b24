import { type Given, InputError, part, type Read, range, record, type Spread, spread } from '@ohmward/quantity'
import { type ReadSupply, type SupplyRange, sourceOver, supplyFields, tapField } from '@ohmward/supply'

type Ends = { readonly from: number; readonly to: number }

/** What must be covered while it works. */
export const conditionsRecord = /*#__PURE__*/ record({
  supply: /*#__PURE__*/ part(supplyFields, {
    optional: true,
    meaning: 'what feeds the switch: cells or a port with the power path, in place of the two plain numbers',
  }),
  tap: tapField,
  charge: /*#__PURE__*/ range({
    unit: '1',
    min: 0,
    max: 1,
    optional: true,
    meaning: 'charge of the cells to cover, 0 to 1',
  }),
  age: /*#__PURE__*/ range({
    unit: '1',
    min: 0,
    max: 1,
    optional: true,
    meaning: 'age of the cells to cover, from new (0) to the end of life (1); all of it by default',
  }),
  openCircuit: /*#__PURE__*/ range({
    unit: 'V',
    above: 0,
    max: 1000,
    optional: true,
    meaning: 'open-circuit voltage of the source, empty to full, without a supply',
  }),
  sourceResistance: /*#__PURE__*/ spread({
    symbol: 'R_s',
    unit: 'ohm',
    min: 0,
    max: 100,
    optional: true,
    meaning: 'resistance of cell, protection, contacts and wiring; the largest is that of a cold, aged cell',
  }),
  ambientCelsius: /*#__PURE__*/ range({
    unit: 'degC',
    min: -55,
    max: 200,
    meaning: 'air around the board, inside the case',
  }),
})

/** What must be covered while it works. */
export interface MosfetConditions extends Given<typeof conditionsRecord> {}

/** A supply, and what of its states is covered. */
export interface Supplied {
  readonly supply: ReadSupply
  readonly over: SupplyRange
}

/** Voltage and resistance that feed the switch. */
export interface Feed {
  readonly openCircuit: Ends
  readonly sourceResistance: Spread
  /** The supply that they come from, where one was given. */
  readonly supplied: Supplied | undefined
}

/**
 * What feeds the switch: the supply over its states, or the two plain numbers.
 *
 * @throws InputError where both are given, neither is, or a state of the supply is missing
 */
export function feedOf(around: Read<typeof conditionsRecord>): Feed {
  const { supply, tap, charge, age, openCircuit, sourceResistance, ambientCelsius: celsius } = around
  if (supply !== undefined) {
    refuseBeside({ openCircuit, sourceResistance }, 'nothing beside a supply, which states it')
    return supplied({ supply, over: { charge, celsius, age, tap } })
  }
  refuseBeside({ tap, charge, age }, 'nothing without a supply')
  if (openCircuit === undefined)
    throw new InputError({ field: 'openCircuit', value: openCircuit, unit: 'V', allowed: 'a range { from, to }' })
  if (sourceResistance === undefined)
    throw new InputError({
      field: 'sourceResistance',
      value: undefined,
      unit: 'ohm',
      allowed: 'a resistance, or supply',
    })
  return { openCircuit, sourceResistance, supplied: undefined }
}

/** What a supply leaves over its states. */
export function supplied(one: Supplied): Feed {
  const { openCircuit, resistance } = sourceOver(one.supply, one.over)
  return { openCircuit, sourceResistance: resistance, supplied: one }
}

function refuseBeside(fields: Readonly<Record<string, unknown>>, allowed: string): void {
  for (const [field, value] of Object.entries(fields))
    if (value !== undefined) throw new InputError({ field, value, allowed })
}
