import type { Assessment, Margin } from '@ohmward/budget'
import { text, worstText } from './numbers.ts'

/** What a margin is at its worst, beside its limit: `11.8 mΩ, at most 15 mΩ`. */
export const againstLimit = (margin: Margin): string =>
  `${worstText(margin)}, ${margin.sense} ${text(margin.limit, margin.unit, 3)}`

/** Names of rows that say the same, in one: `steady and lowest rail against the brown-out threshold`. */
export function together(names: readonly string[]): string {
  const words = names.map((name) => name.split(' '))
  const shortest = Math.min(...words.map(({ length }) => length))
  let same = 0
  while (same < shortest - 1 && new Set(words.map((one) => one.at(-1 - same))).size === 1) same++
  if (same === 0 || names.length === 1) return names.join(' and ')
  return [words.map((one) => one.slice(0, -same).join(' ')).join(' and '), ...words[0]!.slice(-same)].join(' ')
}

/** Rows in sentences, those with the same numbers in one. */
function listed(rows: readonly Margin[]): string {
  const names = new Map<string, string[]>()
  for (const one of rows) names.set(againstLimit(one), [...(names.get(againstLimit(one)) ?? []), one.name])
  const text = [...names].map(([numbers, same]) => `${together(same)}: ${numbers}`).join('; ')
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`
}

/** The answer as one says it: all that fails, the most serious first. */
export function saidOf({ verdict, margins }: Pick<Assessment, 'verdict' | 'margins'>): {
  readonly word: 'Yes' | 'No' | 'Not sure'
  readonly because: string
} {
  const failing = margins.filter((margin) => margin.verdict === 'fails')
  const unsure = margins.filter((margin) => margin.verdict === 'not sure')
  if (verdict === 'fails') return { word: 'No', because: listed(failing) }
  if (verdict === 'not sure') return { word: 'Not sure', because: listed(unsure) }
  return { word: 'Yes', because: '' }
}
