import { estimateRow, holdRow } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import { decoupling } from '../block.js'
import { boardAt } from '../chain/board.js'
import { moreParts } from '../changes/capacitors.js'
import { remedies } from '../changes/index.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { inputsOf } from '../choice/inputs.js'
import { limitId, limitWords, railLimits } from '../rail/limits.js'
import { railOf } from '../rail/rail.js'
import { steadySag } from '../rail/sag.js'
import { lowestOf } from '../search/inside.js'
import { planOf } from '../search/plan.js'
import type { RejectedDecoupling } from './sizing.js'

/** The next number of a part with which a row holds that didn't; `null` where more of them don't help. */
export function countForRow(
  id: string,
  readWith: (count: number) => ReadDecoupling,
  count: number,
  most: number,
): number | null {
  // Inrush, delay and what a port bears only get worse.
  if (!remedies[id]?.some((one) => moreParts.includes(one))) return null
  for (let n = count + 1; n <= most; n++) {
    const row = decoupling.setup(readWith(n)).rows.find((one) => one.id === id)
    // A glance costs a hundredth of a search, and what lacks there hardly holds.
    if (row === undefined || (estimateRow(row).slack >= 0 && holdRow(row).margin.verdict === 'holds')) return n
  }
  return null
}

/** The first row that lacks at a glance and that more of a part may mend. */
export const lackAtAGlance = (read: ReadDecoupling): string | undefined =>
  decoupling
    .setup(read)
    .rows.find((row) => remedies[row.id]?.some((one) => moreParts.includes(one)) && estimateRow(row).slack < 0)?.id

/** Whether no capacitor can hold the rail: the steady sag of its worst board breaks a limit. */
export function isImpossible(read: ReadDecoupling): boolean {
  const { values: worst } = lowestOf(planOf(read))
  return steadySag(read, boardAt(read, inputsOf(read), worst), () => null).isImpossible
}

/** The smallest count that keeps every limit on its worst board; with the largest allowed, what is lacking there. */
export function smallestCount(
  readWith: (count: number) => ReadDecoupling,
  most: number,
): { count: number; lack?: Pick<RejectedDecoupling, 'margin' | 'reason'> } {
  const { values: worst } = lowestOf(planOf(readWith(1)))
  const lackWith = (count: number) => {
    const read = readWith(count)
    const { lowest, logic } = railOf(read, boardAt(read, inputsOf(read), worst))
    const [lack] = railLimits(read)
      .map((limit) => ({ ...limit, short: limit.volts - (limit.place === 'rail' ? lowest : logic) }))
      .filter(({ short }) => short > 0)
    return lack
  }
  for (let count = 1; count < most; count++) if (!lackWith(count)) return { count }
  const lack = lackWith(most)
  if (!lack) return { count: most }
  const { name, place, short } = lack
  const reason = `${most} of them: ${place} short of the ${limitWords[name]} by ${format(short, 'V', { digits: 2 })}`
  return { count: most, lack: { margin: limitId(lack), reason } }
}
