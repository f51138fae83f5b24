import type { BlockRow } from '@ohmward/budget'
import type { Plan } from '../chain/plan.js'
import type { ReadChoice } from '../choice.js'
import { errorRows } from './error.js'
import { inputRows } from './input.js'
import { loopRows } from './loop.js'
import { outputRows } from './output.js'
import { temperatureRows } from './temperature.js'
import { timeRows } from './time.js'

/** Everything that is watched in a low-ohm measurement. */
export function rowsOf(choice: ReadChoice, plan: Plan): BlockRow[] {
  const { inputs, conditions, row, reading: follow, formulas } = plan
  const context = { choice, plan, reading: { inputs, conditions, row, follow, formulas } }
  const bounds = outputRows(context)
  return [
    ...errorRows(context, bounds),
    ...bounds,
    ...inputRows(context),
    ...timeRows(context),
    ...loopRows(context),
    ...temperatureRows(context),
  ]
}
