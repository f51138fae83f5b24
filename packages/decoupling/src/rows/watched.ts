import type { BlockRow, Margin } from '@ohmward/budget'
import type { Plan } from '../search/plan.js'
import { effort } from '../waveform/inside.js'

const reason =
  'the waveform takes more steps to follow than a check may take: it rings for too long, or its times lie too far apart'

/** Rows that are held within what a check may take: one that couldn't be followed isn't sure. */
export const watchedRows = <Row extends BlockRow>(plan: Plan, rows: readonly Row[]): Row[] =>
  rows.map((row) =>
    row.kind === 'own'
      ? {
          ...row,
          hold: (rule) => watched(plan, row.name, () => row.hold(rule)),
          ...(row.estimate && { estimate: () => effort.watch(plan.allowance, row.estimate!).result }),
        }
      : row,
  )

function watched(plan: Plan, name: string, hold: () => Margin): Margin {
  const { result, isBounded, isOpen } = effort.watch(plan.allowance, hold)
  if (!isOpen && !(isBounded && result.verdict === 'fails')) return result
  plan.unfollowed.add(name)
  return { ...result, verdict: 'not sure', reason }
}
