import { type OwnRow, plainMargin } from '@ohmward/budget'
import { limitId, railLimits } from '../rail/limits.js'
import { railOf } from '../rail/rail.js'
import { climb } from '../search/climb.js'
import { glanceAt } from '../search/glance.js'
import type { Lowest } from '../search/inside.js'
import type { Plan } from '../search/plan.js'
import type { Value } from './row.js'

/**
 * The start of PWM: a loop with inductance may ring below its steady state. Sought from the board with the lowest steady rail, which
 * need not be the worst for it; where that has no steady state, the rail's own rows tell.
 */
export function startRows(plan: Plan, lowest: () => Lowest): OwnRow[] {
  const { read } = plan
  const limit = railLimits(read).find(({ place }) => place === 'rail')
  if (!limit || !read.load.pwm) return []
  // Only these may have no steady state; the lowest board is dear, and isn't asked for where it can't matter.
  const mayHaveNone = read.source.currentLimit !== undefined || read.logicRail?.behind === 'diode'
  if (mayHaveNone && !railOf(read, plan.at(lowest().values).board).pwm) return []
  const text = {
    id: 'pwm-start',
    name: 'rail in the first periods',
    unit: 'V',
    sense: 'at least',
    causes: ['steady-sag', ...railLimits(read).map(limitId)],
    catches: [],
  } as const
  const depth: Value = ({ lowestFromStart }) => (lowestFromStart === undefined ? 0 : -lowestFromStart)
  return [
    {
      kind: 'own',
      ...text,
      hold: () => {
        // Where the start never goes below the steady state, that has its own margin.
        const found = climb(plan, lowest().values, depth, depth)
        return { ...plainMargin(text, -found.worst, limit.volts), at: found.at }
      },
      estimate: () => glanceAt(plan, text.sense, (reading) => -depth(reading), limit.volts),
    },
  ]
}
