import type { OwnRow } from '@ohmward/budget'
import type { Board } from '../chain/board.js'
import { firstVoltageOfCurrent, firstVoltageOfResistor } from '../formulas/index.js'
import { limitWords, railLimits } from '../rail/limits.js'
import { inParallel } from '../rail/parallel.js'
import { restOf } from '../rail/steady.js'
import type { Plan } from '../search/plan.js'
import { over } from './row.js'

/** The first drop of a step without inductance: what the series resistances leave, however large the capacitances. */
export function firstDropRows(plan: Plan): OwnRow[] {
  const { source, load } = plan.read
  const limit = railLimits(plan.read).find(({ place }) => place === 'rail')
  const isPlain = source.currentLimit === undefined && source.inductance.upper === 0
  if (!limit || !isPlain || load.kind === 'power' || load.pwm || load.rise > 0) return []
  const text = {
    id: 'series-resistance',
    name: `initial drop with any capacitance, against the ${limitWords[limit.name]}`,
    unit: 'V',
    sense: 'at least',
    catches: ['J02', 'J03'],
  } as const
  return [over(plan, text, ({ board }) => firstOf(board), limit.volts)]
}

function firstOf(board: Board): number {
  const { source, load } = board
  const V_rest = restOf(board)
  const ESR = inParallel(board.branches)
  if (ESR === 0) return V_rest
  const x = { V_rest, R_s: source.resistance, ESR }
  if (load.kind === 'resistor') return firstVoltageOfResistor({ ...x, R_L: load.resistance })
  return load.kind === 'current' ? firstVoltageOfCurrent({ ...x, I_step: load.current }) : V_rest
}
