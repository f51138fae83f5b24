import { hall, hallPeriod } from '@ohmward/hall'
import { between, exact, InputError, type Spread } from '@ohmward/quantity'
import { meanShare, pulseLength, sampleShare } from '../formulas/index.js'
import { lagOfPin } from '../monitor/cells-seen.js'
import { hallAt, isPulsed } from '../walk/choices.js'
import type { Ends } from '../walk/place.js'
import { type Fall, fallOf } from '../walk/pulse.js'
import type { Walk } from '../walk/walk.js'
import { usableSpan } from './usable.js'

/** A sample of a pulse. */
interface Sample {
  /** When it is taken, s: at least so long after the load current has risen, at most so long after the edge. */
  readonly from: number
  readonly to: number
  /** Time constants of what stands before the converter, added up, s: by about so much it shows what was. */
  readonly lag: number
}

/** What a reading takes of a pulse: a sample, or the mean. */
export type Taken = Sample | 'mean'

/** How current and rail fall in a pulse, and what the readings take of them. */
export interface InPulse extends Fall {
  readonly current: Taken
  readonly rail: Taken
}

/**
 * What the readings take of a pulse in which the capacitors still feed the load; undefined where the load isn't pulsed or the
 * capacitors aren't known.
 */
export function inPulse(walk: Walk): InPulse | undefined {
  const { design, firmware } = walk
  if (!isPulsed(design) || !Number.isFinite(design.parts.capacitance)) return undefined
  const { solved } = walk.over(usableSpan(walk))
  const { choice, conditions } = hallAt(design, solved, firmware)
  try {
    const { settled, schedule } = hallPeriod(choice, conditions, design.pwm.duty.from, 2)
    const { timing, converter } = hall.read(choice, conditions)
    const { shortest: to, steps } = schedule.on
    const current = steps.find(({ name }) => name === 'current')
    const rail = steps.find(({ name }) => name === 'rail under load') ?? current
    const sample = (start: number, lag: number): Sample => ({ from: Math.max(0, start - design.load.rise), to, lag })
    const lag = settled === undefined ? 0 : (settled - timing.edge.upper) / ((converter.bits + 1) * Math.LN2)
    return {
      ...fallOf(design, solved),
      // The rise of the current is in its edge.
      current: current === undefined ? 'mean' : sample(current.start - timing.edge.upper + design.load.rise, lag),
      rail: sample(rail?.start ?? 0, lagOfPin(design)),
    }
  } catch (error) {
    // As where the block itself refuses what the supply leaves it: then it has no errors of the current either.
    if (error instanceof InputError) return undefined
    throw error
  }
}

/**
 * A time after which a fall of one time constant, seen without a lag, would stand no lower than it is shown through poles in series:
 * their mean of exp(lambda s) is no more than that of one with all of their time constant.
 */
export function shownAs({ from, lag }: Sample, tau_r: number): number {
  const lambda = lag === 0 ? 1 / tau_r : Math.min(1 / tau_r, 0.5 / lag)
  return Math.max(0, tau_r * (lambda * from + Math.log1p(-lambda * lag)))
}

/**
 * Largest current of a sample, A: what a pulse comes to, and what the capacitors still give beside that. They give most beside a weak
 * source, a strong one brings it to the most; neither gives more than a rail that stands at rest.
 */
export function largestRead(walk: Walk, pulse = inPulse(walk)): number {
  const { current: on, rest, load, switch: R_on } = walk.over(usableSpan(walk)).solved
  if (pulse === undefined || pulse.time === 0) return on.upper
  const { first, time, current } = pulse
  const held = on.upper * (1 + first * (current === 'mean' ? 1 : Math.exp(-shownAs(current, time) / time)))
  return Math.max(on.upper, Math.min(held, rest.upper / (load.lower + R_on.lower)))
}

/** Time constants that are looked at, each a little longer than the one before. */
const steps = /*#__PURE__*/ (() => Array.from({ length: 121 }, (_, i) => 10 ** (-4 * (1 - i / 120))))()

/**
 * Power as two readings take it of a pulse over its mean power, the readings themselves exact, at any of the duties. What the
 * capacitors add may be less than at most and fade sooner; where several kinds fade each in its own time, the product lies between
 * the least and the most of one.
 */
export function shareOfPulse({ first: s_0, time }: InPulse, pwm: PwmAt, taken: readonly [Taken, Taken]): Spread {
  let [lower, upper] = [1, 1]
  if (s_0 === 0 || time === 0) return exact(1)
  const { from, to } = pwm.duty
  for (const step of steps) {
    const tau_r = time * step
    for (const share of [0, 0.25, 0.5, 0.75, 1]) {
      const x_on = Math.max(1e-9, pulseLength({ d_on: from + share * (to - from), f_PWM: pwm.frequency, tau_r }))
      const mean = meanShare({ s_0, x_on })
      const early = taken.map((one) =>
        one === 'mean' ? 1 : sampleShare({ s_0, t_s: shownAs(one, tau_r), tau_r, x_on }),
      )
      const late = taken.map((one) => (one === 'mean' ? 1 : sampleShare({ s_0, t_s: one.to, tau_r, x_on })))
      upper = Math.max(upper, early[0]! * early[1]!)
      lower = Math.min(lower, late[0]! * late[1]! * mean * mean)
    }
  }
  return lower === upper ? exact(1) : between(lower, upper, 1)
}

/** Frequency and duties of the pulses. */
export interface PwmAt {
  readonly frequency: number
  readonly duty: Ends
}
