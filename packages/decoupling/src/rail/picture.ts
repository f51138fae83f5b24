import { at, type Placed, voltageAt } from '../waveform/inside.js'
import type { RailAnswer } from './rail.js'

/** The rail over time, ready to draw. */
export interface RailPicture {
  /** A step or burst from rest, or two periods of steady PWM. */
  readonly kind: 'step' | 'pwm'
  /** Seconds; 0 where the load begins to be switched on. */
  readonly times: readonly number[]
  /** Rail voltage with nominal parts at the worst conditions. */
  readonly nominal: readonly number[]
  /** The lowest and the highest of the nominal, the worst and the best board there. */
  readonly lower: readonly number[]
  readonly upper: readonly number[]
}

const points = 120

/** Samples the rail of three boards: nominal, worst, best. */
export function pictureOf(answers: readonly [nominal: RailAnswer, worst: RailAnswer, best: RailAnswer]): RailPicture {
  const [first] = answers
  const kind = answers.every(({ pwm }) => pwm) ? 'pwm' : 'step'
  const times = kind === 'pwm' ? overPeriods(first) : overStep(first)
  const curves = answers.map((answer) =>
    times.map((t) =>
      kind === 'pwm' ? inPeriod(answer.pwm!.pieces, t * answer.pwm!.pwm.frequency) : voltageAt(answer.step, t),
    ),
  )
  return {
    kind,
    times,
    nominal: curves[0]!,
    lower: times.map((_, i) => Math.min(...curves.map((curve) => curve[i]!))),
    upper: times.map((_, i) => Math.max(...curves.map((curve) => curve[i]!))),
  }
}

/** Two periods. */
function overPeriods({ pwm }: RailAnswer): number[] {
  const T = 1 / pwm!.pwm.frequency
  const whole = Array.from({ length: points + 1 }, (_, i) => (2 * T * i) / points)
  const corners = pwm!.pieces.flatMap(({ start }) => [start, start + T])
  return withCorners(whole, corners, T)
}

/** Rail voltage of steady PWM at a time counted in periods. */
function inPeriod(pieces: readonly Placed[], periods: number): number {
  const length = pieces.reduce((sum, { piece }) => sum + piece.duration, 0)
  const t = (periods - Math.floor(periods)) * length
  const { piece, start } = pieces.findLast((one) => one.start <= t + 1e-9 * length) ?? pieces[0]!
  return at(piece.voltage, Math.min(Math.max(0, t - start), piece.duration))
}

/** From a little before the step until the rail stands still, or half a burst after its end. */
function overStep({ step }: RailAnswer): number[] {
  const on = step.pieces.filter(({ phase }) => phase === 'rise' || phase === 'on')
  const last = on[on.length - 1]
  const lasts = last ? last.start + last.piece.duration : 0
  const slowest = Math.max(1e-9, ...on.flatMap(({ piece }) => piece.solved.roots.re.map((x) => -1 / x)))
  const rise = on.find(({ phase }) => phase === 'rise')?.piece.duration ?? 0
  const end = Math.min(step.collapse ?? Number.POSITIVE_INFINITY, 1.6 * lasts, rise + 6 * slowest) || slowest
  const whole = Array.from({ length: points + 1 }, (_, i) => -0.1 * end + (1.1 * end * i) / points)
  const corners = step.pieces.map(({ start }) => start).filter((t) => t <= end)
  return withCorners(whole, corners, end)
}

/** Times with the corners themselves, and just before each, so that a jump is drawn as one. */
function withCorners(whole: readonly number[], corners: readonly number[], span: number): number[] {
  const gap = 1e-6 * span
  const inside = corners.filter((t) => t > whole[0]!)
  const far = whole.filter((t) => inside.every((corner) => Math.abs(t - corner) > 2 * gap))
  return [...far, ...inside, ...inside.map((t) => t - gap)].sort((a, b) => a - b)
}
