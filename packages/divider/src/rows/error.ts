import type { ErrorRow } from '@ohmward/budget'
import { allowedAt } from './allowed.js'
import type { RowContext } from './context.js'

/** The error of the indicated resistance at the smallest, the nominal and the largest load. */
export function errorRows({ choice, plan, reading }: RowContext): ErrorRow[] {
  const { from, to, nominal } = choice.load
  const row = (R_x: number, size: string, name: string): ErrorRow => ({
    kind: 'error',
    id: `error-${size}`,
    name: `error at the ${size} load`,
    unit: 'ohm',
    sense: 'at most',
    reading,
    at: { R_x },
    shown: plan.result,
    fill: plan.fill,
    truth: R_x,
    allowed: allowedAt(choice, R_x),
    budget: { name, symbol: 'R_ind', quantity: `indicated resistance, ${size} load` },
    catches: ['A03', 'A08', 'A09', 'B02', 'B03', 'B04', 'B05', 'B09'],
  })
  return [
    row(from, 'smallest', 'R_ind_smallest'),
    row(nominal, 'nominal', 'R_ind'),
    row(to, 'largest', 'R_ind_largest'),
  ]
}
