import type { Given, PartFields } from '@ohmward/quantity'

/** A supply that holds its current at a limit: a weak port with its cable. */
export const supplyFields = {
  resistance: {
    symbol: 'R_cable',
    unit: 'ohm',
    above: 0,
    max: 100,
    meaning: 'resistance of port, cable and connectors, there and back',
  },
  currentLimit: { symbol: 'I_lim', unit: 'A', above: 0, max: 100, meaning: 'least current that the supply guarantees' },
  attachable: {
    symbol: 'C_att',
    unit: 'F',
    above: 0,
    max: 1,
    otherwise: 10e-6,
    meaning: 'capacitance that may be plugged onto the port without a soft start',
  },
} as const satisfies PartFields

/** A current-limited supply, as its user writes it. */
export type LimitedSupply = Given<typeof supplyFields> & { readonly kind: 'limited supply' }
