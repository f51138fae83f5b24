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
  readonly value: (v: Values, choice: any) => string
  readonly as: (choice: any) => unknown
  readonly shown?: (choice: any) => boolean
}

const kind = (id: string, k: number, name: string): Row => ({
  id,
  group: id,
  name,
  symbol: `C_${k}`,
  inputs: [`C_r${k}`, `ESR_r${k}`, `ESL_${k}`],
  value: (v, c) => {
    const count = Number(c.capacitors?.[id]?.count ?? 1)
    return `${count > 1 ? `${count} × ` : ''}${text(v[`C_r${k}`], 'F', 3)}`
  },
  as: (c) => {
    const part = c.capacitors?.[id]
    return part && `${part.count ?? 1} × ${part.capacitance}, ${part.seriesResistance} in series`
  },
  shown: (c) => c.capacitors?.[id] !== undefined,
})

/** The parts of the circuit: what the drawing writes beside each, and which inputs of the budget are its own. */
const rows: readonly Row[] = [
  {
    id: 'source',
    name: 'cell and power path',
    symbol: 'R_s',
    inputs: ['R_cell', 'R_1', 'R_2', 'R_3', 'R_4', 'k_old', 'e_oc', 'V_drop', 'L'],
    value: (v) => text(v['R_s'], 'ohm', 3),
    as: (c) => `cell ${c.source?.source?.resistance}`,
  },
  kind('bulk', 1, 'first kind of capacitor'),
  kind('second', 2, 'second kind of capacitor'),
  {
    id: 'load',
    field: 'choice.load.resistance',
    name: 'blade',
    symbol: 'R_L',
    inputs: ['R_L', 'I_step', 'P_L'],
    value: (v) => text(v['R_L'] ?? v['I_step'] ?? v['P_L'], v['R_L'] ? 'ohm' : v['I_step'] ? 'A' : 'W', 3),
    as: (c) => c.load?.resistance ?? c.load?.current ?? c.load?.power,
  },
  {
    id: 'hold',
    field: 'choice.logicRail.capacitance',
    name: 'hold-up capacitor of the logic rail',
    symbol: 'C_h',
    inputs: ['C_h', 'V_f', 'R_iso', 'I_mcu'],
    value: (v) => text(v['C_h'], 'F', 3),
    as: (c) => c.logicRail?.capacitance,
    shown: (c) => c.logicRail?.behind !== undefined,
  },
  {
    id: 'isolation',
    name: 'what isolates the logic rail',
    symbol: 'R_iso',
    inputs: ['R_iso', 'V_f', 'k_f'],
    value: (v) => (v['R_iso'] ? text(v['R_iso'], 'ohm', 3) : text(v['V_f'], 'V', 3)),
    as: (c) => (c.logicRail?.behind === 'diode' ? c.logicRail.forwardVoltage : c.logicRail?.resistance),
    shown: (c) => c.logicRail?.behind !== undefined,
  },
]

/** What the drawing says of each part that this choice has, with its share of the lowest rail's variance. */
export const decouplingParts = (assessment: Assessment, x: Arguments): PartInfo[] =>
  rows
    .filter(({ shown }) => shown === undefined || shown(x['choice']))
    .map(({ id, name, symbol, inputs, value, as, field, group }) => ({
      id,
      ...(field !== undefined && { field }),
      ...(group !== undefined && { group }),
      name,
      symbol,
      value: value(assessment.values, x['choice']),
      as: String(as(x['choice']) ?? ''),
      share: shareOf(assessment.budgets['V_min']!, inputs),
    }))
