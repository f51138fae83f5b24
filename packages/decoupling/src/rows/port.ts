import type { BlockRow } from '@ohmward/budget'
import { portCurrent } from '../rail/steady.js'
import type { Plan } from '../search/plan.js'
import { over } from './row.js'

/** A weak port: its current and what may be plugged onto it. */
export function portRows(plan: Plan): BlockRow[] {
  const { source, capacitors, load, logicRail } = plan.read
  const { attachable, currentLimit } = source
  if (attachable === undefined || currentLimit === undefined) return []
  const hung = (end: 'nominal' | 'upper') =>
    capacitors.reduce(
      (sum, { fields, count }) => sum + count * fields.capacitance[end],
      logicRail?.fields.capacitance[end] ?? 0,
    )
  const what = load.duration < Number.POSITIVE_INFINITY ? 'current between bursts' : 'mean current'
  const current = {
    id: 'port-current',
    name: `${what} against the port rating`,
    unit: 'A',
    sense: 'at most',
    catches: ['J13'],
  } as const
  return [
    over(
      plan,
      current,
      ({ board }) => portCurrent(plan.read, board),
      ({ board }) => board.source.currentLimit ?? currentLimit.lower,
    ),
    {
      kind: 'plain',
      id: 'port-capacitance',
      name: 'capacitance plugged onto the port',
      unit: 'F',
      sense: 'at most',
      worst: hung('upper'),
      limit: attachable.lower,
      nominal: hung('nominal'),
      catches: ['J13'],
    },
  ]
}
