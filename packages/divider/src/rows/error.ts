import { type BlockRow, clipText, type ErrorRow, type LimitRow } from '@ohmward/budget'
import { type Size, sizes } from '../wanted.js'
import { allowedAt, loadOf } from './allowed.js'
import type { RowContext } from './context.js'

/** Rows of the output at a load: what lies between them is read, and beyond them the reading stands still. */
const ends: readonly string[] = ['headroom', 'full-scale', 'dead-zone']
/** The same of what was read at the calibration. */
const calibrated: readonly string[] = ['zero', 'span', 'span-low']

/** What makes a reading wrong where it fails, by the row's id: the error follows from it. */
const causes: readonly string[] = /*#__PURE__*/ ends.concat(calibrated, [
  'supply-low',
  'common-mode-high',
  'common-mode-low',
  'settling',
  'sampling',
])

/** The rows that say whether the reading at a load stays between its ends. */
function endsAt(R_x: number, bounds: readonly BlockRow[]): LimitRow[] {
  const rows = bounds.filter((row) => row.kind === 'limit')
  // A row that is held at this load already is not held again.
  const moved = rows
    .filter(({ id }) => ends.includes(id))
    .map((row) => (row.at?.['R_x'] === R_x ? row : { ...row, at: { R_x } }))
  return [...moved, ...rows.filter(({ id }) => calibrated.includes(id))]
}

/**
 * The error of the indicated resistance at the smallest, the nominal and the largest load: those that are held, and those
 * of which only the budget is wanted.
 *
 * @param bounds - rows of the output, which say whether a reading may clip
 */
export function errorRows({ choice, plan, reading }: RowContext, bounds: readonly BlockRow[]) {
  const row = (size: Size, name: string, R_x = loadOf(choice, size)): ErrorRow => ({
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
    allowed: allowedAt(choice, size),
    doubt: () => clipText(endsAt(R_x, bounds)),
    budget: { name, symbol: 'R_ind', quantity: `indicated resistance, ${size} load` },
    causes,
    catches: ['A03', 'A08', 'A09', 'B02', 'B03', 'B04', 'B05', 'B09'],
  })
  const rows = {
    smallest: row('smallest', 'R_ind_smallest'),
    nominal: row('nominal', 'R_ind'),
    largest: row('largest', 'R_ind_largest'),
  }
  const isHeld = (size: Size) => choice.error[size] !== undefined
  const of = (sought: boolean) => sizes.filter((size) => isHeld(size) === sought).map((size) => rows[size])
  return { held: of(true), unheld: of(false) }
}
