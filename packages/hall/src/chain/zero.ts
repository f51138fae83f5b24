import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'
import { intervalOf } from './noise.js'
import { slowestOf } from './source.js'

/** A zero that is read each time, in the time for which the load is off. */
export interface FreshZero {
  /** Time for which the load is off; undefined where it is as long as the zero takes. */
  readonly offTime: number | undefined
  /** Whether that is the off-time of each period, which holds one of its samples; or one of its own for all of them. */
  readonly inPeriod: boolean
  /** From the edge that switches off to the sample that the firmware waits for. */
  readonly wait: number
  /** From that edge to the end of the last sample. */
  readonly takes: number
  /** Share of the current before that the sample still holds; it is taken as late as the off-time lets. */
  readonly held: number
}

/** The zero of a choice that reads it each time; undefined where it is read once or not at all. */
export function freshZero(choice: ReadChoice, needed: number): FreshZero | undefined {
  const { calibration, pwm, converter, timing, reading } = choice
  if (calibration.kind !== 'zero each time') return undefined
  const inPeriod = pwm !== undefined && calibration.offTime === undefined
  // It waits as the reading does; where that averages, until its filter has settled.
  const wait = (reading === 'on-window' ? choice.wait : undefined) ?? needed
  const others = inPeriod ? 0 : (calibration.samples - 1) * intervalOf(choice)
  const sampling = others + converter.spreads.t_acq.upper + converter.spreads.t_conv.upper
  const offTime = calibration.offTime ?? (pwm ? (1 - pwm.duty.to) / pwm.frequency : undefined)
  const t_wait = offTime === undefined ? wait : Math.min(wait, Math.max(offTime - sampling, 0))
  const t_set = f.settlingLeft({ t_wait, t_edge: timing.edge.upper })
  return { offTime, inPeriod, wait, takes: wait + sampling, held: f.unsettledShare({ ...slowestOf(choice), t_set }) }
}
