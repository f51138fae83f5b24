import type { Margin, Verdict } from './assessment.js'

/** The verdict of several margins: one that fails decides, then one that isn't sure. */
export function verdictOf(margins: readonly Margin[]): Verdict {
  if (margins.some((margin) => margin.verdict === 'fails')) return 'fails'
  return margins.some((margin) => margin.verdict === 'not sure') ? 'not sure' : 'holds'
}

/** Slack as a share of the limit, or of the worst value where the limit is 0: what margins are ordered by. */
export function relativeSlack({ slack, limit, worst }: Margin): number {
  return slack / (Math.abs(limit) || Math.abs(worst) || 1)
}

/** Margins with the least relative slack first. */
export function ordered(margins: readonly Margin[]): Margin[] {
  return [...margins].sort((a, b) => relativeSlack(a) - relativeSlack(b))
}
