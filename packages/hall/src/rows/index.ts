import type { BlockRow } from '@ohmward/budget'
import type { Plan } from '../chain/plan.js'
import type { ReadChoice } from '../read-choice.js'
import type { TripLevel } from '../trip.js'
import { errorRows } from './error.js'
import { pinRows } from './pin.js'
import { readingRows } from './reading.js'
import { sensorRows } from './sensor.js'
import { spanRows } from './span.js'
import { timeRows } from './time.js'
import { tripRows } from './trip.js'

/** Everything that is watched in a measurement of current. */
export function rowsOf(choice: ReadChoice, plan: Plan, trip: TripLevel | undefined): BlockRow[] {
  const { inputs, conditions, groups, row, reading: follow } = plan
  const reading = { inputs, conditions, groups, row, follow, formulas: plan.formulas() }
  const context = { choice, plan, reading }
  const bounds = [...spanRows(context), ...pinRows(context)]
  return [
    ...errorRows(context, bounds),
    ...bounds,
    ...sensorRows(context),
    ...readingRows(context),
    ...timeRows(context),
    ...tripRows(context, trip),
  ]
}
