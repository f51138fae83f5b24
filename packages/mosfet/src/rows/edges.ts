import { openDuty } from '../chain/inputs.js'
import type { ReadMosfet } from '../choice.js'
import { shortestTime } from '../formulas/limits.js'
import type { MosfetRow } from './row.js'

/** Edges against the shortest pulse, the longest edge allowed and the safe operating area. */
export function edgeRows(read: ReadMosfet): MosfetRow[] {
  const { frequency, transistor, edgeLimit, duty } = read
  const rows: MosfetRow[] = []
  const { from } = openDuty(read)
  const text = {
    unit: 's',
    sense: 'at most',
    catches: ['H04', 'H07'],
  } as const
  if (frequency > 0 && from > 0 && from < 1) {
    rows.push({
      ...text,
      id: 'on-edge',
      name: 'turn-on delay and edge',
      value: 't_ton',
      limit: shortestTime({ D_least: from, f: frequency }),
    })
  }
  if (frequency > 0 && duty.to < 1 && duty.to > 0) {
    rows.push({
      ...text,
      id: 'off-edge',
      name: 'turn-off delay and edge',
      value: 't_toff',
      limit: shortestTime({ D_least: 1 - duty.to, f: frequency }),
    })
  }
  if (edgeLimit !== undefined) {
    rows.push({
      ...text,
      id: 'longest-edge',
      name: 'longer edge',
      value: 't_slow',
      limit: edgeLimit,
    })
  }
  if (transistor.safePulses !== undefined) {
    rows.push({
      id: 'safe-area',
      name: 'peak power in an edge',
      unit: 'W',
      sense: 'at most',
      // Of several in parallel the one with the lowest threshold may bear the edge alone.
      value: 'P_alone',
      limit: 'P_soa',
      // It is derated by the junction's temperature, and so is the energy of a breakdown.
      causes: ['junction'],
      catches: ['H10'],
    })
  }
  return rows
}
