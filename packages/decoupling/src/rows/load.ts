import type { OwnRow } from '@ohmward/budget'
import { mostResistorPower } from '../formulas/index.js'
import { powerAllowed, tripAllowed, tripLoad } from '../rail/protection.js'
import { restOf } from '../rail/steady.js'
import type { Plan } from '../search/plan.js'
import { over } from './row.js'

/** Whether the load's power exists, and whether the protection lets it through. */
export function loadRows(plan: Plan): OwnRow[] {
  const { read } = plan
  const { load, source } = read
  const rows: OwnRow[] = []
  // A burst may take more than stays possible: what it does to the rail tells.
  if (load.kind === 'power' && load.duration === Number.POSITIVE_INFINITY) {
    const text = {
      id: 'power-exists',
      name: 'constant power, against 70 % of the largest possible',
      unit: 'W',
      sense: 'at most',
      catches: ['K02'],
    } as const
    rows.push(
      over(
        plan,
        text,
        ({ board }) => (board.load.kind === 'power' ? board.load.power : 0),
        ({ board }) => powerAllowed(board),
      ),
    )
  }
  if (load.wantedPower) {
    const text = {
      id: 'power-reaches',
      name: 'required power, against that at full duty',
      unit: 'W',
      sense: 'at most',
      catches: ['K02'],
    } as const
    rows.push(
      over(
        plan,
        text,
        ({ board }) => board.wantedPower,
        ({ board }) => {
          const R_L = board.load.kind === 'resistor' ? board.load.resistance : 0
          return mostResistorPower({ V_rest: restOf(board), R_s: board.source.resistance, R_L })
        },
      ),
    )
  }
  if (source.protection >= 0) {
    const text = {
      id: 'protection-trip',
      name: 'load current, against 70 % of the trip current',
      unit: 'A',
      sense: 'at most',
      catches: ['K03'],
    } as const
    rows.push(
      over(
        plan,
        text,
        ({ board, V_min }) => tripLoad(read, board, V_min),
        ({ board }) => tripAllowed(read, board),
      ),
    )
  }
  return rows
}
