import type { BlockRow, ErrorRow } from '@ohmward/budget'
import type { Plan } from '../chain/plan.js'
import type { ReadChoice } from '../choice.js'
import { errorRows } from './error.js'
import { inputRows } from './input.js'
import { loopRows } from './loop.js'
import { outputRows } from './output.js'
import { temperatureRows } from './temperature.js'
import { timeRows } from './time.js'
import { warmingRows } from './warming.js'

/** Everything that is watched in a low-ohm measurement, and the errors of which only the budget is wanted. */
export function rowsOf(choice: ReadChoice, plan: Plan): { readonly rows: BlockRow[]; readonly unheld: ErrorRow[] } {
  const { inputs, conditions, row, reading: follow, formulas } = plan
  const context = { choice, plan, reading: { inputs, conditions, row, follow, formulas } }
  const bounds = outputRows(context)
  const { held, unheld } = errorRows(context, bounds)
  const rows = [
    ...held,
    ...bounds,
    ...inputRows(context),
    ...timeRows(context),
    ...loopRows(context),
    ...warmingRows(context, held),
    ...temperatureRows(context),
  ]
  return { rows, unheld }
}
