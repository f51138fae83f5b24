import type { Assessment, Margin } from '@ohmward/budget'
import { text, worstText } from './numbers.ts'

/** What a margin is at its worst, beside its limit: `11.8 mΩ, at most 15 mΩ`. */
export const againstLimit = (margin: Margin): string =>
  `${worstText(margin)}, ${margin.sense} ${text(margin.limit, margin.unit, 3)}`

/** The answer as one says it: all that fails, the most serious first. */
export function saidOf({ verdict, margins }: Pick<Assessment, 'verdict' | 'margins'>): {
  readonly word: 'Yes' | 'No' | 'Not sure'
  readonly because: string
} {
  const failing = margins.filter((margin) => margin.verdict === 'fails')
  const unsure = margins.filter((margin) => margin.verdict === 'not sure')
  const listed = (some: readonly Margin[]) => some.map((one) => `${one.name}: ${againstLimit(one)}`).join('; also ')
  if (verdict === 'fails') return { word: 'No', because: `${listed(failing)}.` }
  if (verdict === 'not sure') return { word: 'Not sure', because: `${listed(unsure)}.` }
  return { word: 'Yes', because: '' }
}
