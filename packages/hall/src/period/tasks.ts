import type { Task } from '@ohmward/adc'
import type { Behind } from '../chain/behind.js'
import type { ReadChoice } from '../read-choice.js'

/** The converter's tasks: the current, its zero where each period has one, and whatever else it reads in a period. */
export function tasksOf({ converter, timing, reading, otherTasks }: ReadChoice, behind: Behind): readonly Task[] {
  const { wait, fresh } = behind
  const own = (name: string, window: Task['window'], waits: number, samples: number): Task => {
    const recovery = Math.min(timing.edge.upper, waits)
    return {
      name,
      window,
      recovery,
      settling: waits - recovery,
      acquisition: converter.spreads.t_acq.upper,
      conversion: converter.spreads.t_conv.upper,
      samples,
    }
  }
  return [
    ...(reading === 'averaged' ? [] : [own('current', 'on', wait, timing.samplesPerWindow.nominal)]),
    ...(fresh?.inPeriod ? [own('zero', 'off', fresh.wait, 1)] : []),
    ...otherTasks,
  ]
}
