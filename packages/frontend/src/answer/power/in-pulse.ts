import type { SampledRail } from '@ohmward/decoupling'
import { hall, hallPeriod } from '@ohmward/hall'
import { between, exact, InputError, type Spread } from '@ohmward/quantity'
import { hallAt } from '../../blocks/hall-at.js'
import { ringAt } from '../../blocks/ring.js'
import { meanShare, pulseLength, sampleShare } from '../../formulas/index.js'
import { once } from '../../kept/once.js'
import { lagOfPin } from '../../monitor/cells-seen.js'
import { isPulsed } from '../../pulse/conducting.js'
import { type Fall, fallOf } from '../../pulse/pulse.js'
import type { Ends } from '../../supply/place.js'
import type { Walk } from '../../walk/walk.js'
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
  /** What each of them may find where the rail rings, the current as the rail that drives it; undefined where it doesn't. */
  readonly rings: Readonly<Record<'current' | 'rail', SampledRail | undefined>>
}

/**
 * What the readings take of a pulse in which the capacitors still feed the load; undefined where the load isn't pulsed or the
 * capacitors aren't known.
 */
export function inPulse(walk: Walk): InPulse | undefined {
  const found = known.get(walk) ?? once(() => takenOf(walk))
  known.set(walk, found)
  return found()
}

const known = new WeakMap<Walk, () => InPulse | undefined>()

function takenOf(walk: Walk): InPulse | undefined {
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
    const fall = fallOf(design, solved)
    // The rise of the current is in its edge.
    const read: Pick<InPulse, 'current'> & { readonly rail: Sample } = {
      current: current === undefined ? 'mean' : sample(current.start - timing.edge.upper + design.load.rise, lag),
      rail: sample(rail?.start ?? 0, lagOfPin(design)),
    }
    const ring = ({ from: after, to: until, lag }: Sample) =>
      ringAt(
        design,
        solved,
        { after, until, lag },
        leftOf({ from: after, to: until, lag }, fall.time),
        firmware.edges(),
      )
    return { ...fall, ...read, rings: ringsOf(read.current, read.rail, ring) }
  } catch (error) {
    // As where the block itself refuses what the supply leaves it: then it has no errors of the current either.
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** The rings of both readings: of a mean over the whole pulse, and one for both that are read at nearly the same time. */
function ringsOf(current: Taken, rail: Sample, ring: (one: Sample) => SampledRail | undefined): InPulse['rings'] {
  if (current === 'mean') return { current: ring({ from: 0, to: Number.POSITIVE_INFINITY, lag: 0 }), rail: ring(rail) }
  const [from, lag] = [Math.min(current.from, rail.from), Math.max(current.lag, rail.lag)]
  if (Math.max(current.from, rail.from) > 1.1 * from) return { current: ring(current), rail: ring(rail) }
  const both = ring({ ...rail, from, lag })
  return { current: both, rail: both }
}

/**
 * A time after which a fall of one time constant, seen without a lag, would stand no lower than it is shown through poles in series:
 * their mean of exp(lambda s) is no more than that of one with all of their time constant.
 */
export function shownAs({ from, lag }: Sample, tau_r: number): number {
  const lambda = lag === 0 ? 1 / tau_r : Math.min(1 / tau_r, 0.5 / lag)
  return Math.max(0, tau_r * (lambda * from + Math.log1p(-lambda * lag)))
}

/** What is left of the fall by then. */
const leftOf = (sample: Sample, time: number): number => (time === 0 ? 0 : Math.exp(-shownAs(sample, time) / time))

/**
 * Largest current of a sample, A: what a pulse comes to, and what the capacitors still give beside that. They give most beside a weak
 * source, a strong one brings it to the most; neither gives more than a rail that stands at rest, unless that rings.
 */
export function largestRead(walk: Walk, pulse = inPulse(walk)): number {
  const { current: on, rest, load, switch: R_on } = walk.over(usableSpan(walk)).solved
  if (pulse === undefined || pulse.time === 0) return on.upper
  const { first, time, current, rings } = pulse
  const held = on.upper * (1 + first * (current === 'mean' ? 1 : leftOf(current, time)))
  const most = rest.upper / (load.lower + R_on.lower)
  return Math.max(on.upper, Math.min(held, most), (rings.current?.highest ?? 0) * most)
}

/** Time constants that are looked at, each a little longer than the one before. */
const steps = /*#__PURE__*/ (() => Array.from({ length: 121 }, (_, i) => 10 ** (-4 * (1 - i / 120))))()

/**
 * Power as two readings take it of a pulse over its mean power, the readings themselves exact, at any of the duties. What the
 * capacitors add may be less than at most and fade sooner; where several kinds fade each in its own time, the product lies between
 * the least and the most of one.
 */
export function shareOfPulse(pulse: InPulse, pwm: PwmAt, readings: readonly ['current', 'current' | 'rail']): Spread {
  const { first: s_0, time, rings } = pulse
  const taken = readings.map((one) => pulse[one])
  let [lower, upper] = rungShares(readings.map((one) => ({ ring: rings[one], isMean: pulse[one] === 'mean' })))
  const { from, to } = pwm.duty
  for (const step of s_0 === 0 || time === 0 ? [] : steps) {
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

/** The same of a rail that rings; 1 of one that doesn't. */
function rungShares(readings: readonly { readonly ring: SampledRail | undefined; readonly isMean: boolean }[]) {
  const product = (of: (ring: SampledRail, isMean: boolean) => number) =>
    readings.reduce((all, { ring, isMean }) => all * (ring === undefined ? 1 : of(ring, isMean)), 1)
  return [
    product((ring, isMean) => (isMean ? ring.mean : Math.min(1, ring.least))),
    product((ring, isMean) => (isMean ? 1 : Math.max(1, ring.most))),
  ] as const
}

/** Frequency and duties of the pulses. */
export interface PwmAt {
  readonly frequency: number
  readonly duty: Ends
}
