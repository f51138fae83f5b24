import type { Margin, MarginText } from '@ohmward/budget'

/** What a margin says of itself. */
export const text = (
  id: string,
  name: string,
  unit: string,
  sense: Margin['sense'],
  catches: readonly string[],
  what: readonly string[],
): MarginText => ({ id, name, unit, sense, remedies: what, catches })
