import type { ErrorRow } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { RowContext } from './context.js'

/** The error of the reading at each of the wanted currents. */
export const errorRows = ({ choice, plan, reading }: RowContext): ErrorRow[] =>
  choice.errors.map(({ at, allowed }, i) => ({
    kind: 'error',
    id: `error-${i + 1}`,
    name: `error at ${format(at, 'A')}`,
    unit: 'A',
    sense: 'at most',
    reading,
    at: plan.at(at),
    shown: plan.result,
    fill: plan.fill,
    truth: at,
    allowed,
    budget: {
      name: `I_${i + 1}`,
      symbol: plan.zeroOutput ? 'I_cor' : 'I_ind',
      quantity: `indicated current at ${format(at, 'A')}`,
    },
    catches: ['E02', 'E03', 'E04', 'E05', 'E06', 'E07'],
  }))
