import { type Margin, plainMargin } from '@ohmward/budget'
import { remedyTexts } from '../changes/texts.js'
import type { Findings } from '../rail/findings.js'
import { railOf } from '../rail/rail.js'
import { climb } from '../search/climb.js'
import type { Plan } from '../search/plan.js'
import { pwmStart } from '../waveform/index.js'
import { railLimits } from './limits.js'

/**
 * The start of PWM: a loop with inductance may ring below its steady state. Sought from the board with the lowest steady rail, which
 * need not be the worst for it.
 */
export function startMargin(plan: Plan, worst: Readonly<Record<string, number>>): Margin[] {
  const { read } = plan
  const limit = railLimits(read).find(({ place }) => place === 'rail')
  const { pwm } = railOf(read, plan.at(worst).board)
  if (!limit || !pwm) return []
  const depth = ({ board }: Findings): number => {
    const rail = railOf(read, board)
    return rail.pwm ? -pwmStart(rail.circuit, board.load, rail.pwm).lowest : 0
  }
  // Where the start never goes below the steady state, that has its own margin.
  const found = climb(plan, worst, depth, depth)
  const text = {
    id: 'pwm-start',
    name: 'rail in the first periods',
    unit: 'V',
    sense: 'at least',
    remedies: remedyTexts.rail,
    catches: [],
  } as const
  return [{ ...plainMargin(text, -found.worst, limit.volts), at: found.at }]
}
