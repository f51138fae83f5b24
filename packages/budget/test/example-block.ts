import { between, type Input, readSpread } from '@ohmward/quantity'
import { type BlockRow, blockOf, formula } from '../src/index.js'

/** A divider of two resistors that feeds a meter: small enough to reckon by hand. */
export interface Choice {
  readonly upper: Input
  readonly lower: Input
  readonly wanted?: number
}

export const output = formula({
  symbol: 'V_out',
  quantity: 'output',
  unit: 'V',
  inputs: { V_in: ['V', 0, 10], R_u: ['ohm', 1, 1e6], R_l: ['ohm', 1, 1e6] },
  expression: 'V_in * R_l / (R_u + R_l)',
  compute: (x) => (x.V_in * x.R_l) / (x.R_u + x.R_l),
  source: 'Kirchhoff',
})

const symbols = ['V_in', 'R_u', 'R_l'] as const

export const block = blockOf<Choice, { volts: { from: number; to: number } }, any>({
  name: 'example',
  read: (choice, { volts }) => ({
    upper: readSpread(choice.upper, { field: 'upper', unit: 'ohm', above: 0, max: 1e5 }),
    lower: readSpread(choice.lower, { field: 'lower', unit: 'ohm', above: 0, max: 1e5 }),
    wanted: choice.wanted ?? 1,
    volts,
  }),
  at: (read, { volts }) => ({ ...read, ...(volts !== undefined && { volts: { from: volts, to: volts } }) }),
  setup: (read) => {
    const y: Record<string, number> = {}
    const reading = {
      inputs: { V_in: between(read.volts.from, read.volts.to), R_u: read.upper, R_l: read.lower },
      conditions: ['V_in'],
      row: (c: any, i: number) => {
        for (const symbol of symbols) y[symbol] = c[symbol][i]
        return y
      },
      follow: () => {
        y['V_out'] = output(y as any)
        return y
      },
      formulas: [output],
    }
    const text = { unit: 'V', catches: [] } as const
    const rows: BlockRow[] = [
      { ...text, kind: 'limit', id: 'high', name: 'high', sense: 'at most', reading, value: 'V_out', limit: 2 },
      {
        ...text,
        kind: 'limit',
        id: 'low',
        name: 'low',
        sense: 'at least',
        reading,
        value: 'V_out',
        limit: read.wanted,
      },
    ]
    return {
      rows,
      cautions: () => [],
      report: () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] }),
    }
  },
})

export const volts = { volts: { from: 3, to: 4 } }
