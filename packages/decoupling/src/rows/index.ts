import type { BlockRow } from '@ohmward/budget'
import type { Lowest } from '../search/inside.js'
import type { Plan } from '../search/plan.js'
import { firstDropRows } from './first-drop.js'
import { insertionRows } from './insertion.js'
import { clockRows, limitRows } from './limits.js'
import { loadRows } from './load.js'
import { portRows } from './port.js'
import { rippleRows } from './ripple.js'
import { startRows } from './start.js'
import { voltageRows } from './voltage.js'
import { watchedRows } from './watched.js'

/** Everything that is watched on a rail. */
export const rowsOf = (plan: Plan, lowest: () => Lowest): BlockRow[] =>
  watchedRows(plan, [
    ...limitRows(plan),
    ...firstDropRows(plan),
    ...loadRows(plan),
    ...voltageRows(plan),
    ...insertionRows(plan),
    ...portRows(plan),
    ...clockRows(plan),
    ...rippleRows(plan),
    ...startRows(plan, lowest),
  ])
