import type { BlockRow } from '@ohmward/budget'
import { sourceAt } from '../chain/source.js'
import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'
import { inWindow, type RowContext } from './context.js'

/** Whether the converter can read the pin, and the pin stands it. */
export const pinRows = (context: RowContext): BlockRow[] => [converterRow(context), ...clampRow(context.choice)]

/** A time after which everything has settled, s. */
const settledAfter = 1e3

/** The highest pin voltage. Behind an averaging filter it sees the mean, and what ripples about it. */
function converterRow({ choice, plan, reading }: RowContext): BlockRow {
  const { current, pwm } = choice
  const { needed, wait } = plan.behind
  const averaged = choice.reading === 'averaged' && pwm
  // On one rail the full scale rises with the output.
  const isOneVariable = choice.sensorSupply === undefined && choice.converter.reference.kind !== 'absolute'
  return {
    kind: 'limit',
    id: 'converter-high',
    name: 'highest pin voltage',
    unit: 'V',
    sense: 'at most',
    // Where the output falls as the supply rises, it is highest where the two meet, inside the range: each counts at its own worst.
    reading: isOneVariable ? reading : { ...reading, follow: plan.highest },
    // What sampling misses doesn't stand at the pin, and what isn't settled at the sample still comes there.
    at: {
      ...(averaged
        ? plan.at(current.to * pwm.duty.to)
        : { ...inWindow(current.to), ...(wait < needed && { t_set: settledAfter }) }),
      n_miss: 0,
    },
    value: 'V_pin',
    limit: 'V_top',
    catches: ['E02'],
  }
}

/** What a sensor supplied from above the rail drives into the pin's clamp, which conducts from 0.3 V on. */
function clampRow(choice: ReadChoice): BlockRow[] {
  const { sensorSupply, rail, sensor, divider } = choice
  if (!sensorSupply) return []
  const R_o = sensor.outputResistance.lower
  const k_d = divider ? f.dividerRatio({ R_o, R_t: divider.top.lower, R_b: divider.bottom.upper }) : 1
  const R_src = sourceAt(choice, 'lower')
  return [
    {
      kind: 'plain',
      id: 'clamp',
      name: "current into the pin's clamp, sensor at its supply",
      unit: 'A',
      sense: 'at most',
      worst: f.clampCurrent({ V_hi: sensorSupply.upper, k_d, V_rail: rail.from, V_clamp: 0.3, R_src }),
      limit: 1e-3,
      catches: ['E02'],
    },
  ]
}
