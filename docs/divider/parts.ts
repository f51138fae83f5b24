import type { Assessment } from '@ohmward/budget'
import type { Arguments } from '../.vitepress/theme/block.ts'
import { type PartInfo, shareOf } from '../.vitepress/theme/circuit/parts.ts'
import { text } from '../.vitepress/theme/numbers.ts'

interface Row {
  readonly id: string
  readonly name: string
  /** Symbols of the budget that belong to this part. */
  readonly inputs: readonly string[]
  /** The field of the form that is its value, or the group whose classes it can be chosen from. */
  readonly field?: string
  readonly group?: string
  readonly symbol?: string
  readonly value: (v: Assessment['values'], x: Arguments) => string
  readonly as: (choice: any) => unknown
}

const ohms = (symbol: string) => (v: Assessment['values']) => text(v[symbol], 'ohm')

/** The parts of the circuit: what the drawing writes beside each, and which inputs of the budget are its own. */
const rows: readonly Row[] = [
  {
    id: 'R_sw',
    field: 'choice.excitationSwitch.resistance',
    name: 'excitation switch',
    inputs: ['R_sw', 'V_sat'],
    value: ohms('R_sw'),
    as: (c) => c.excitationSwitch?.resistance,
  },
  {
    id: 'R_ref',
    field: 'choice.reference',
    name: 'reference resistor',
    inputs: ['R_ref', 'alpha_ref', 'R_thref'],
    value: ohms('R_ref'),
    as: (c) => c.reference,
  },
  {
    id: 'R_lead',
    field: 'choice.surroundings.leadResistance',
    name: 'leads and contacts',
    inputs: ['R_lead', 'R_con'],
    value: ohms('R_lead'),
    as: (c) => c.surroundings?.leadResistance,
  },
  {
    id: 'R_x',
    field: 'choice.load.nominal',
    name: 'blade',
    inputs: ['R_x'],
    value: ohms('R_x'),
    as: ({ load }) => `${load.from} to ${load.to}`,
  },
  {
    id: 'R_p',
    field: 'choice.surroundings.protectionResistance',
    name: 'protection resistor',
    inputs: ['R_p', 'I_leak'],
    value: ohms('R_p'),
    as: (c) => c.surroundings?.protectionResistance,
  },
  {
    id: 'amplifier',
    group: 'amplifier',
    name: 'amplifier',
    symbol: 'G',
    inputs: ['V_os', 'D_os', 'm_ps', 'm_cm', 'I_b', 'I_os', 'a_ol', 'V_n'],
    value: (v) => text(v['G'] ?? v['g'], '1'),
    as: ({ amplifier }) => `offset ${amplifier.offsetVoltage}`,
  },
  {
    id: 'R_a',
    field: 'choice.gainResistors.ground',
    name: 'resistor from the rail to the non-inverting input',
    inputs: ['R_a', 'alpha_P'],
    value: ohms('R_a'),
    as: (c) => c.gainResistors.ground,
  },
  {
    id: 'R_b',
    field: 'choice.gainResistors.feedback',
    name: 'resistor from the non-inverting input to ground',
    inputs: ['R_b'],
    value: ohms('R_b'),
    as: (c) => c.gainResistors.feedback,
  },
  {
    id: 'R_c',
    field: 'choice.gainResistors.ground',
    name: 'resistor from the lower sense point',
    inputs: ['R_c', 'alpha_G'],
    value: ohms('R_c'),
    as: (c) => c.gainResistors.ground,
  },
  {
    id: 'R_d',
    field: 'choice.gainResistors.feedback',
    name: 'feedback resistor',
    inputs: ['R_d'],
    value: ohms('R_d'),
    as: (c) => c.gainResistors.feedback,
  },
  {
    id: 'R_f',
    field: 'choice.gainResistors.feedback',
    name: 'feedback resistor',
    inputs: ['R_f'],
    value: ohms('R_f'),
    as: (c) => c.gainResistors.feedback,
  },
  {
    id: 'R_g',
    field: 'choice.gainResistors.ground',
    name: 'gain resistor to ground',
    inputs: ['R_g', 'alpha_G'],
    value: ohms('R_g'),
    as: (c) => c.gainResistors.ground,
  },
  {
    id: 'converter',
    group: 'converter',
    name: 'converter',
    symbol: 'N_bits',
    inputs: ['e_gain', 'e_offset', 'e_INL', 'e_q', 'e_n', 'I_pin', 'R_filt', 'V_ref0', 'TC_ref'],
    value: (v) => `${v['N_bits']} bits`,
    as: ({ converter }) => `gain ${converter.gain}, offset ${converter.offset}, nonlinearity ${converter.nonlinearity}`,
  },
]

/** What the drawing says of each part that this topology has, with its share of the error at the nominal load. */
export const dividerParts = (assessment: Assessment, x: Arguments): PartInfo[] =>
  rows
    .filter(({ id, symbol }) => symbol !== undefined || assessment.values[id] !== undefined)
    .map(({ id, name, inputs, symbol, value, as, field, group }) => ({
      id,
      ...(field !== undefined && { field }),
      ...(group !== undefined && { group }),
      name,
      symbol: symbol ?? id,
      value: value(assessment.values, x),
      as: String(as(x['choice']) ?? ''),
      share: shareOf(assessment.budgets['R_ind']!, inputs),
    }))
