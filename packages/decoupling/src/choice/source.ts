import { InputError, type Spread } from '@ohmward/quantity'
import { elementsOf, type ReadSupply, sumOf, voltageOver } from '@ohmward/supply'
import type { ReadPlain } from '../parts/index.js'
import type { ReadSource } from './choice.js'

type Ends = { readonly from: number; readonly to: number }

/** What of the conditions a source depends on. */
interface Around {
  readonly openCircuit: Ends | undefined
  readonly charge: Ends | undefined
}

/** A source, and the open-circuit voltages that it is held at. */
interface Sourced {
  readonly source: ReadSource
  readonly openCircuit: Ends
}

/**
 * The source in one shape, and what of its voltage is covered.
 *
 * @param tap - where the rail is in the path
 * @throws InputError where the voltage is stated twice or not at all, a charge is asked of what has none, or the path has no
 *   such tap
 */
export function sourceOf(given: ReadSupply | ReadPlain, tap: string | undefined, around: Around): Sourced {
  if ('resistance' in given) return plainOf(given, tap, around)
  const { source, path: whole = [], inductance } = given
  const path = elementsOf(whole, tap === undefined ? 'whole' : { before: tap })
  const protection = path.findIndex(({ tripVoltage }) => tripVoltage !== undefined)
  if (source.kind === 'cell') {
    const isByCharge = source.chargeFactor.y.some((factor) => factor !== source.chargeFactor.y[0])
    const { charge } = around
    return {
      openCircuit: charge === undefined ? stated(around, undefined) : oneOf(around, voltageOver(source, charge)),
      source: {
        kind: 'cell',
        cell: source,
        charge: charge ?? { from: 0, to: 1 },
        isByCharge,
        path,
        protection,
        inductance,
        currentLimit: undefined,
        attachable: undefined,
      },
    }
  }
  const { voltage, leadResistance, leadInductance, currentLimit, attachable } = source
  const held = { inductance: sumOf([leadInductance, inductance]), currentLimit, attachable }
  return {
    openCircuit: stated(around, voltage),
    source: { kind: 'port', leadResistance, leadInductance, path, protection, ...held },
  }
}

function plainOf({ openCircuit, resistance, ...more }: ReadPlain, tap: string | undefined, around: Around): Sourced {
  if (tap !== undefined) {
    throw new InputError({ field: 'tap', value: tap, allowed: 'nothing: plain numbers have no power path' })
  }
  const { inductance, currentLimit, attachable } = more
  const source = { kind: 'plain', resistance, path: [], protection: -1, inductance, currentLimit, attachable } as const
  return { openCircuit: stated(around, openCircuit), source }
}

/** The voltage of a source that states it, or else that of the conditions. */
function stated({ openCircuit, charge }: Around, own: Spread | undefined): Ends {
  if (charge !== undefined) {
    throw new InputError({ field: 'charge', value: charge, allowed: 'nothing: only cells have a charge' })
  }
  if (own !== undefined) return oneOf({ openCircuit, charge }, { from: own.lower, to: own.upper })
  if (openCircuit !== undefined) return openCircuit
  throw new InputError({ field: 'openCircuit', value: openCircuit, unit: 'V', allowed: 'a range { from, to }' })
}

function oneOf({ openCircuit }: Around, own: Ends): Ends {
  if (openCircuit === undefined) return own
  const hint = 'The source or the charge states it already'
  throw new InputError({ field: 'openCircuit', value: openCircuit, unit: 'V', allowed: 'nothing', hint })
}
