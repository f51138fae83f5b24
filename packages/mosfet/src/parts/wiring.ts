import type { PartFields } from '@ohmward/quantity'

/** Copper and wires around the switch. */
export const wiringFields = {
  sharedSource: {
    symbol: 'R_sh',
    unit: 'ohm',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: 'copper that load current and gate drive share at the source',
  },
  inductance: {
    symbol: 'L_w',
    unit: 'H',
    min: 0,
    max: 1e-3,
    otherwise: '1 uH',
    meaning: 'inductance of the loop of source, switch and load: about 1 µH for each metre of wire',
  },
  contactTime: {
    symbol: 't_ins',
    unit: 's',
    above: 0,
    max: 1,
    otherwise: 1e-5,
    meaning: 'shortest rise time of the rail when the cell makes contact',
  },
} as const satisfies PartFields
