import type { Assessment } from '@ohmward/budget'
import type { Arguments } from '../.vitepress/theme/block.ts'
import { type PartInfo, shareOf } from '../.vitepress/theme/circuit/parts.ts'
import { text } from '../.vitepress/theme/numbers.ts'

interface Row {
  readonly id: string
  readonly name: string
  readonly symbol: string
  /** Symbols of the budget that belong to this part. */
  readonly inputs: readonly string[]
  /** The field of the form that is its value, or the group whose classes it can be chosen from. */
  readonly field?: string
  readonly group?: string
  readonly value: (v: Assessment['values']) => string
  readonly as: (choice: any) => unknown
}

const both = (...symbols: string[]) => symbols.flatMap((symbol) => [symbol, `${symbol}z`])

const rows: readonly Row[] = [
  {
    id: 'sensor',
    group: 'sensor',
    name: 'current sensor',
    symbol: 'S',
    inputs: [
      'e_S',
      'e_Sa',
      'TC_S',
      'm_S',
      'V_oe',
      'D_oe',
      'V_oa',
      'm_q',
      'V_L',
      'V_h',
      'V_hz',
      'R_o',
      'V_s',
      ...both('V_B', 'V_n'),
      'V_nb',
    ],
    value: (v) => text(v['S'], 'V/A', 3),
    as: ({ sensor }) => `sensitivity ±${sensor.sensitivityError}, zero ±${sensor.zeroError}`,
  },
  {
    id: 'R_t',
    field: 'choice.divider.top',
    name: 'upper resistor of the divider',
    symbol: 'R_t',
    inputs: ['R_t'],
    value: (v) => text(v['R_t'], 'ohm'),
    as: ({ divider }) => divider?.top,
  },
  {
    id: 'R_b',
    field: 'choice.divider.bottom',
    name: 'lower resistor of the divider',
    symbol: 'R_b',
    inputs: ['R_b'],
    value: (v) => text(v['R_b'], 'ohm'),
    as: ({ divider }) => divider?.bottom,
  },
  {
    id: 'R_filt',
    field: 'choice.filter.resistance',
    name: 'resistor of the filter',
    symbol: 'R_filt',
    inputs: ['R_filt', 'V_lk', ...both('n_miss')],
    value: (v) => text(v['R_filt'], 'ohm'),
    as: ({ filter }) => filter?.resistance,
  },
  {
    id: 'C_f',
    field: 'choice.filter.capacitance',
    name: 'capacitor of the filter',
    symbol: 'C_f',
    inputs: ['C_f', 'w_x', 'I_held'],
    value: (v) => text(v['C_f'], 'F'),
    as: ({ filter }) => filter?.capacitance,
  },
  {
    id: 'converter',
    group: 'converter',
    name: 'converter',
    symbol: 'N_bits',
    inputs: ['e_gain', 'e_offset', ...both('e_INL', 'e_q', 'e_n'), 'V_ref0', 'TC_ref'],
    value: (v) => `${v['N_bits']} bits`,
    as: ({ converter }) => `gain ${converter.gain}, offset ${converter.offset}, nonlinearity ${converter.nonlinearity}`,
  },
]

/** What the drawing says of each part, with its share of the error at the last of the wanted currents. */
export function hallParts(assessment: Assessment, { choice }: Arguments): PartInfo[] {
  const budgets = Object.entries(assessment.budgets).filter(([name]) => name !== 'I_trip')
  const budget = budgets.at(-1)![1]
  return rows
    .filter(({ id }) => choice.divider !== undefined || (id !== 'R_t' && id !== 'R_b'))
    .map(({ id, name, symbol, inputs, value, as, field, group }) => ({
      id,
      ...(field !== undefined && { field }),
      ...(group !== undefined && { group }),
      name,
      symbol,
      value: value(assessment.values),
      as: String(as(choice) ?? ''),
      share: shareOf(budget, inputs),
    }))
}
