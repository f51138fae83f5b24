import type { Margin } from '@ohmward/budget'

/** Of a limit, how much is used at the worst case: 1 at the limit, more where it is broken. */
export function usedOf({ sense, worst, limit, slack }: Margin): number {
  if (sense === 'at most' && limit > 0 && worst >= 0) return worst / limit
  if (sense === 'at least' && limit > 0 && worst > 0) return limit / worst
  // Where zero lies between, by the room that is left, as a share of the larger of the two.
  return 1 - slack / (Math.max(Math.abs(limit), Math.abs(worst)) || 1)
}

/** Margins by how much of their limits is used, most first; what fails before all. */
export const mostUsed = (margins: readonly Margin[]): Margin[] => {
  const place = (one: Margin) => ({ fails: 0, 'not sure': 1, holds: 2 })[one.verdict]
  const failing = margins.filter(({ verdict }) => verdict === 'fails')
  const rest = margins
    .filter(({ verdict }) => verdict !== 'fails')
    .sort((a, b) => place(a) - place(b) || usedOf(b) - usedOf(a))
  return [...failing, ...rest]
}
