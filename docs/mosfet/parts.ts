import type { Assessment } from '@ohmward/budget'
import type { Arguments } from '../.vitepress/theme/block.ts'
import { type PartInfo, shareOf } from '../.vitepress/theme/circuit/parts.ts'
import { text } from '../.vitepress/theme/numbers.ts'

type Values = Assessment['values']

interface Row {
  readonly id: string
  readonly name: string
  readonly symbol: string
  /** Symbols of the budget that belong to this part. */
  readonly inputs: readonly string[]
  /** The field of the form that is its value, or the group whose classes it can be chosen from. */
  readonly field?: string
  readonly group?: string
  readonly value: (v: Values) => string
  readonly as: (x: Arguments) => unknown
  readonly when?: (x: Arguments) => boolean
}

const ohms = (symbol: string) => (v: Values) => text(v[symbol], 'ohm')
const inverts = ({ choice }: Arguments) => choice.drive.kind === 'inverting transistor'

/** The parts of the circuit: what the drawing writes beside each, and which inputs of the budget are its own. */
const rows: readonly Row[] = [
  {
    id: 'R_s',
    field: 'conditions.sourceResistance',
    symbol: 'R_s',
    name: 'cell, contacts and wiring',
    inputs: ['R_s'],
    value: ohms('R_s'),
    as: (x) => x['conditions'].sourceResistance,
  },
  {
    id: 'R_L',
    field: 'choice.load.resistance',
    symbol: 'R_L',
    name: 'blade',
    inputs: ['R_L'],
    value: ohms('R_L'),
    as: (x) => x['choice'].load.resistance,
  },
  {
    id: 'transistor',
    group: 'transistor',
    symbol: 'R_on',
    name: 'transistor',
    inputs: ['q_R', 'Q_gs', 'Q_gd', 'V_pl', 'V_th', 'R_gi', 'C_oss'],
    value: ohms('R_on'),
    as: (x) => x['choice'].transistor.onResistance,
  },
  {
    id: 'R_thJA',
    symbol: 'R_thJA',
    name: 'copper, from junction to ambient',
    inputs: ['R_thJA'],
    value: (v) => text(v['R_thJA'], 'K/W'),
    as: (x) => x['choice'].thermal.tolerance ?? '±20 %',
  },
  {
    id: 'R_p',
    field: 'choice.drive.pull.resistance',
    symbol: 'R_p',
    name: 'pull-up or pull-down',
    inputs: ['R_p'],
    value: ohms('R_p'),
    as: (x) => x['choice'].drive.pull?.resistance,
    when: (x) => x['choice'].drive.pull !== undefined,
  },
  {
    id: 'R_g',
    field: 'choice.drive.gateResistor',
    symbol: 'R_g',
    name: 'gate resistor',
    inputs: ['R_g'],
    value: ohms('R_g'),
    as: (x) => x['choice'].drive.gateResistor,
  },
  {
    id: 'R_b',
    field: 'choice.drive.baseResistor',
    symbol: 'R_b',
    name: 'base resistor',
    inputs: ['R_b', 'V_BE'],
    value: ohms('R_b'),
    as: (x) => x['choice'].drive.baseResistor,
    when: inverts,
  },
  {
    id: 'R_be',
    field: 'choice.drive.basePullDown',
    symbol: 'R_be',
    name: 'resistor from base to emitter',
    inputs: ['R_be'],
    value: ohms('R_be'),
    as: (x) => x['choice'].drive.basePullDown,
    when: (x) => inverts(x) && x['choice'].drive.basePullDown !== undefined,
  },
  {
    id: 'R_sh',
    field: 'choice.wiring.sharedSource',
    symbol: 'R_sh',
    name: 'copper shared at the source',
    inputs: ['R_sh'],
    value: ohms('R_sh'),
    as: (x) => x['choice'].wiring?.sharedSource,
  },
]

/** What the drawing says of each part, with its share in the spread of the thermal headroom. */
export const mosfetParts = (assessment: Assessment, x: Arguments): PartInfo[] =>
  rows
    .filter(({ when }) => when === undefined || when(x))
    .map(({ id, symbol, name, inputs, value, as, field, group }) => ({
      id,
      ...(field !== undefined && { field }),
      ...(group !== undefined && { group }),
      symbol,
      name,
      value: value(assessment.values),
      as: String(as(x) ?? ''),
      share: shareOf(assessment.budgets['T_spare']!, inputs),
    }))
