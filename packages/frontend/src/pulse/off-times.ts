import { hallPeriod } from '@ohmward/hall'
import { InputError, readSpread } from '@ohmward/quantity'
import type { ReadDesign } from '../design/record.js'

/** From the command that switches the load off until the resistance is read, at least, s. */
export const readAfter = ({ divider: { timing } }: Pick<ReadDesign, 'divider'>): number =>
  timing?.wait === undefined ? 1e-3 : readSpread(timing.wait, { field: 'divider.timing.wait', unit: 's' }).lower

/** How long the load has been off at least before the cells are read at rest, s; undefined where it is on all the time and nothing is told. */
export function pauseOf({ monitor, pwm }: Pick<ReadDesign, 'monitor' | 'pwm'>): number | undefined {
  return monitor?.pause ?? (pwm.duty.to < 1 ? (1 - pwm.duty.to) / pwm.frequency : undefined)
}

/** The same without the edge of the switch, s, where it is the off-time of the pulses: that begins with it. */
export function restedFor(design: Pick<ReadDesign, 'monitor' | 'pwm'>, edge: number): number | undefined {
  const pause = pauseOf(design)
  return pause === undefined || design.monitor?.pause !== undefined ? pause : Math.max(0, pause - edge)
}

/** Whether a zero of the current is read in each pause of the load. */
export function isZeroedEachTime({ hall: { calibration } }: Pick<ReadDesign, 'hall'>): boolean {
  return (typeof calibration === 'object' ? calibration?.kind : calibration) === 'zero each time'
}

/**
 * From the end of the switch's edge, s, until a zero of the current is read, at least, s: the wait of the reading, else what sensor and filter
 * take to settle; 0 where their block refuses them.
 */
export function zeroAfter({ hall, pwm, ambientCelsius }: ReadDesign, edge: number): number {
  const { wait, reading } = hall
  if (wait !== undefined && reading !== 'averaged')
    return Math.max(0, readSpread(wait, { field: 'hall.wait', unit: 's' }).lower - edge)
  return settling({ hall, pwm, ambientCelsius })
}

/** What the sensor of the current and its filter take to settle after a step, s; 0 where their block refuses them. */
export function settling({ hall, pwm, ambientCelsius }: Pick<ReadDesign, 'hall' | 'pwm' | 'ambientCelsius'>): number {
  const { wait: _, reading: __, ...choice } = hall
  try {
    // Nothing of it depends on the rail.
    const conditions = { rail: { from: 5, to: 5 }, ambientCelsius }
    const alone = { ...choice, otherTasks: [], timing: { ...choice.timing, edge: 0 }, pwm }
    return hallPeriod(alone, conditions, pwm.duty.from, 2).settled ?? 0
  } catch (error) {
    if (error instanceof InputError) return 0
    throw error
  }
}
