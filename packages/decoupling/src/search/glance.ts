import { estimateLimit, type Margin, type RowEstimate } from '@ohmward/budget'
import type { RailReading } from '../rail/reading.js'
import { model, type Plan } from './plan.js'

/**
 * What a value of a board may come to against its limit, at a glance: at the ends of the conditions, the parts one after the other. A
 * duty or a frequency between the ends, and an age at which two parts cross, it doesn't see.
 */
export function glanceAt(
  { inputs, row, conditions }: Plan,
  sense: Margin['sense'],
  value: (reading: RailReading) => number,
  limit: number | ((reading: RailReading) => number),
): RowEstimate {
  const told = model(value)
  const allowed = typeof limit === 'number' ? () => limit : model(limit)
  return estimateLimit({ inputs, row, conditions }, sense, (x, seen) => {
    seen.value = told(x)
    seen.limit = allowed(x)
  })
}
