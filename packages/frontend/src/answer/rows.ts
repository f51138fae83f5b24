import { relativeSlack } from '@ohmward/budget'
import type { RowAt } from '../walk/hold.js'
import type { PointAt } from '../walk/walk.js'
import type { RowOver } from './assessment.js'

/** Names a row in the whole design. */
export const idOf = ({ block, state, margin }: RowAt): string =>
  block === 'decoupling' && state === 'PWM' ? `${block}/PWM/${margin.id}` : `${block}/${margin.id}`

const seriousness = { fails: 0, 'not sure': 1, holds: 2 } as const

/** Every row over the walk: failing ones first, those with the least slack relative to their limit before the others. */
export function rowsOver(points: readonly PointAt[], charges: readonly number[]): RowOver[] {
  const failsFrom = new Map<string, number>()
  const rows = new Map<string, RowOver>()
  for (const { place, rows: here } of points) {
    for (const row of here) {
      const id = idOf(row)
      const known = rows.get(id)
      const holds = row.margin.verdict === 'holds'
      if (!holds) failsFrom.set(id, Math.max(failsFrom.get(id) ?? 0, place.charge))
      const worse = known === undefined || isWorse(row, known)
      const { block, state, margin } = worse ? row : known
      rows.set(id, {
        id,
        block,
        state,
        margin,
        place: worse ? place : known.place,
        heldDownTo: null,
        failing: (known?.failing ?? 0) + (holds ? 0 : 1),
        held: (known?.held ?? 0) + 1,
      })
    }
  }
  const heldDownTo = (id: string): number | null => {
    const from = failsFrom.get(id)
    return charges.filter((charge) => from === undefined || charge > from).at(-1) ?? null
  }
  return [...rows.values()]
    .map((row) => ({ ...row, heldDownTo: heldDownTo(row.id) }))
    .sort(
      (a, b) =>
        seriousness[a.margin.verdict] - seriousness[b.margin.verdict] ||
        relativeSlack(a.margin) - relativeSlack(b.margin),
    )
}

/** A verdict that is worse comes before a slack that is less: what isn't sure may have slack to spare. */
function isWorse(row: RowAt, { margin }: RowOver): boolean {
  const by = seriousness[row.margin.verdict] - seriousness[margin.verdict]
  return by < 0 || (by === 0 && relativeSlack(row.margin) < relativeSlack(margin))
}
