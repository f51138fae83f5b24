import type { PartFields } from '@ohmward/quantity'

/** What insertion of the cell must not hurt. */
export const insertionFields = {
  contactSurge: {
    symbol: 'I_surge',
    unit: 'A',
    min: 0,
    max: 1e5,
    otherwise: 0,
    meaning: 'surge current that the contacts withstand; 0: not stated',
  },
  shortVoltage: {
    symbol: 'V_short',
    unit: 'V',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: 'short-circuit detection voltage of the protection; 0: not stated',
  },
  shortDelay: {
    symbol: 't_short',
    unit: 's',
    min: 0,
    max: 1,
    otherwise: 0,
    meaning: 'shortest delay of the short-circuit detection',
  },
  railMaximum: {
    symbol: 'V_abs',
    unit: 'V',
    min: 0,
    max: 1000,
    otherwise: 0,
    meaning: 'lowest absolute maximum of the parts on the rail; 0: not stated',
  },
} as const satisfies PartFields
