import type { Task } from '@ohmward/adc'
import type { Behind } from '../chain/behind.js'
import type { ReadChoice } from '../read-choice.js'

/** The converter's tasks: the current, and whatever else it reads in a period. */
export function tasksOf({ converter, timing, reading, otherTasks }: ReadChoice, { wait }: Behind): readonly Task[] {
  if (reading === 'averaged') return otherTasks
  const recovery = Math.min(timing.edge.upper, wait)
  return [
    {
      name: 'current',
      window: 'on',
      recovery,
      settling: wait - recovery,
      acquisition: converter.spreads.t_acq.upper,
      conversion: converter.spreads.t_conv.upper,
      samples: timing.samplesPerWindow.nominal,
    },
    ...otherTasks,
  ]
}
