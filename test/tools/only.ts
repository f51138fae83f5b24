import type { Remedies } from '@ohmward/budget'

/** The same remedies without those of other names: a search tries these alone. */
export const only = (remedies: Remedies, ids: readonly string[]): Remedies =>
  Object.fromEntries(Object.entries(remedies).map(([row, specs]) => [row, specs.filter(({ id }) => ids.includes(id))]))
