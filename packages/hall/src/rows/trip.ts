import type { InputSet, LimitRow } from '@ohmward/budget'
import type { Place } from '../chain/plan.js'
import type { TripLevel } from '../trip.js'
import { inWindow, type RowContext } from './context.js'

/** Whether a trip leaves normal use alone, acts in time, and is reached at all. */
export function tripRows({ choice, plan, reading }: RowContext, trip: TripLevel | undefined): LimitRow[] {
  if (!trip || !choice.trip) return []
  const { normal, withstand } = choice.trip
  const { level, usual, late, acts } = trip
  // The trip follows chains of its own.
  const itself = { ...reading, follow: (x: Place) => x }
  const row = (id: string, name: string, sense: LimitRow['sense'], at: InputSet, limit: number): LimitRow => ({
    kind: 'limit',
    id,
    name,
    unit: 'A',
    sense,
    reading: itself,
    at,
    value: acts,
    limit,
    catches: ['K11'],
  })
  const beyond = 10 * Math.max(withstand, Math.abs(choice.current.to), Math.abs(level))
  return [
    row('trip-false', 'lowest trip current', 'at least', usual, normal),
    row('trip-late', 'highest trip current', 'at most', late, withstand),
    {
      // Whether the reading gets as far as the level before sensor or converter saturate.
      ...row('trip-reach', 'reading at saturation', 'at least', inWindow(beyond), level),
      value: plan.result,
    },
  ]
}
