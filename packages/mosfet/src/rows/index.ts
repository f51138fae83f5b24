import type { Switch } from '../chain/switch.js'
import type { ReadMosfet } from '../choice.js'
import { driveRows } from './drive.js'
import { edgeRows } from './edges.js'
import { gateRows } from './gate.js'
import { offRows } from './off.js'
import { ratingRows } from './ratings.js'
import type { MosfetRow } from './row.js'

export { heatMargins } from './heat.js'
export { hasTwoRegimes, heldMargin, type MosfetRow } from './row.js'

/** Every margin but those of the junction's heat. */
export function rowsOf(read: ReadMosfet, { topology }: Switch): MosfetRow[] {
  return [
    ...gateRows(read),
    ...driveRows(read),
    ...offRows(read, topology),
    ...ratingRows(read, topology),
    ...edgeRows(read),
  ]
}
