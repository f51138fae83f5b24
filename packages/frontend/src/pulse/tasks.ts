import { divider } from '@ohmward/divider'
import type { HallChoice } from '@ohmward/hall'
import { readSpread } from '@ohmward/quantity'
import type { ReadDesign } from '../design/record.js'
import { isPulsed } from './conducting.js'

/** What the converter does beside the current in a PWM period. */
export type Tasks = NonNullable<HallChoice['otherTasks']>

/**
 * One converter serves every reading: the resistance while the load is off, as its own block takes it, and the rail against the
 * internal reference, at rest where the monitor wants it so, and beside the current for the power. Their times bound the duty; a load
 * that is never pulsed has no off-window, and what is read without it is read before it is switched on.
 */
export function tasksOf(design: ReadDesign): Tasks {
  const tasks = inPeriod(design)
  return isPulsed(design) ? tasks : tasks.filter(({ window }) => window === 'on')
}

function inPeriod({ divider: choice, hall, ambientCelsius, controller, monitor }: ReadDesign): Tasks {
  const conditions = { rail: { from: 1, to: 1 }, ambientCelsius }
  const { timing, converter } = divider.read(choice, conditions)
  const { t_acq, t_conv } = converter.spreads
  const times = { acquisition: t_acq.upper, conversion: t_conv.upper }
  const resistance = {
    name: 'resistance',
    window: 'off',
    recovery: 0,
    settling: timing.wait.upper + timing.referenceSettling.upper,
    samples: timing.samples.nominal,
    ...times,
  } as const
  if (controller.internalReference === undefined) return [resistance]
  const settling = hall.wait === undefined ? 0 : readSpread(hall.wait, { field: 'hall.wait', unit: 's' }).upper
  const loaded = { name: 'rail under load', window: 'on', recovery: 0, settling, ...times } as const
  if (monitor?.reads !== 'at rest') return [resistance, loaded]
  return [resistance, { name: 'rail', window: 'off', recovery: 0, settling: 0, ...times }, loaded]
}
