import { type BlockRow, clipText, type ErrorRow, holdRow, type InputSet, type LimitRow } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { RowContext } from './context.js'

/** What makes a reading wrong where it fails, by the row's id: the error follows from it. */
const causes: readonly string[] = [
  'supply-low',
  'rated-current',
  'span-high',
  'span-low',
  'zero-span',
  'converter-high',
  'settling',
  'on-window',
  'off-window',
]

/**
 * The error of the reading at each of the wanted currents.
 *
 * @param bounds - rows that say whether the reading stays between its ends, in use and at its zero
 */
export const errorRows = ({ choice, plan, reading }: RowContext, bounds: readonly BlockRow[]): ErrorRow[] =>
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
    doubt: () => clipAt(plan.at(at), bounds, choice.reading === 'averaged'),
    budget: {
      name: `I_${i + 1}`,
      symbol: plan.zeroOutput ? 'I_cor' : 'I_ind',
      quantity: `indicated current at ${format(at, 'A')}`,
    },
    causes,
    catches: ['E02', 'E03', 'E04', 'E05', 'E06', 'E07'],
  }))

/**
 * Why the reading may clip at a current; nothing where it stays between its ends. A row that holds at the largest current
 * holds at a smaller one. The zero's own row stands as it is, and behind a filter that averages the load is off as well.
 */
function clipAt(at: InputSet, bounds: readonly BlockRow[], isMean: boolean): string | undefined {
  const failing = bounds.filter(
    (row): row is LimitRow => row.kind === 'limit' && holdRow(row).margin.verdict !== 'holds',
  )
  const isFixed = (id: string) => id === 'zero-span' || (isMean && id === 'span-low')
  return clipText(failing.map((row) => (isFixed(row.id) ? row : { ...row, at: { ...row.at, ...at } })))
}
