import { type BlockRow, type ErrorRow, holdRow } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import { allowedAt } from './allowed.js'
import type { RowContext } from './context.js'

/** Rows of the output at a load: what lies between them is read, and beyond them the reading stands still. */
const ends: readonly string[] = ['headroom', 'full-scale', 'dead-zone']
/** The same of what was read at the calibration. */
const calibrated: readonly string[] = ['zero', 'span', 'span-low']

/**
 * Why the reading may clip at a load; nothing where it stays between its ends.
 *
 * @param bounds - rows of the output
 */
function clipAt(R_x: number, bounds: readonly BlockRow[]): string | undefined {
  for (const row of bounds) {
    if (row.kind !== 'limit') continue
    const isEnd = ends.includes(row.id)
    if (!isEnd && !calibrated.includes(row.id)) continue
    const { worst, limit, slack } = holdRow(isEnd ? { ...row, at: { R_x } } : row).margin
    if (slack >= 0) continue
    const [is, allowed] = [worst, limit].map((volts) => format(volts, 'V', { digits: 3 }))
    return `the reading may clip, and then stands still: ${row.name}, ${is} against ${allowed}`
  }
  return undefined
}

/**
 * The error of the indicated resistance at the smallest, the nominal and the largest load.
 *
 * @param bounds - rows of the output, which say whether a reading may clip
 */
export function errorRows({ choice, plan, reading }: RowContext, bounds: readonly BlockRow[]): ErrorRow[] {
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
    doubt: () => clipAt(R_x, bounds),
    budget: { name, symbol: 'R_ind', quantity: `indicated resistance, ${size} load` },
    catches: ['A03', 'A08', 'A09', 'B02', 'B03', 'B04', 'B05', 'B09'],
  })
  return [
    row(from, 'smallest', 'R_ind_smallest'),
    row(nominal, 'nominal', 'R_ind'),
    row(to, 'largest', 'R_ind_largest'),
  ]
}
