import type { Evaluator } from '../model/evaluate.js'

/** What three evaluations say about one input, each number in the output's unit for a move of one standard uncertainty. */
export interface Slope {
  /** First order: partial derivative times standard uncertainty. */
  readonly first: number
  /** Second derivative times variance; 0 where the model breaks within ±u. */
  readonly second: number
  /** Third-order term: what the difference over ±u and the derivative at the estimate disagree by. */
  readonly third: number
  /** The three points don't fit a smooth bend: a kink, a clip or a step within ±u. */
  readonly rough: boolean
  /** Partial derivative. */
  readonly sensitivity: number
  /** Where the model gave no finite result, if anywhere within ±u. */
  readonly broken: number | undefined
}

/** Step below which an input's own digits are used up: the derivative is then taken over this part of its value. */
const smallestStep = 1e-6

/** The model with one input moved. */
function moved(at: Evaluator, i: number, to: number, finite = false): number {
  at.set(i, to)
  return finite ? at.finite() : at.value()
}

/**
 * Derivatives of the model with respect to input `i`, by differences over u, -u and u/2, and -u/2 where it bends.
 *
 * Steps of the size of u keep all digits and are what JCGM 100:2008, 5.1.3, note 2 allows. The cubic through the three
 * points and the middle takes the third derivative out of the first; what remains is of fourth order in u. Where the
 * third-order term isn't small the model isn't smooth, and the plain central difference over ±u stands.
 */
export function slope(at: Evaluator, i: number, mean: number, u: number, middle: number): Slope {
  let h = Math.max(u, Math.abs(mean) * smallestStep)
  let up = moved(at, i, mean + h)
  let down = moved(at, i, mean - h)
  let half = moved(at, i, mean + h / 2)
  let broken: number | undefined
  if (!Number.isFinite(up + down + half)) {
    broken = mean + (Number.isFinite(up) ? (Number.isFinite(down) ? h / 2 : -h) : h)
    h /= 1024
    up = moved(at, i, mean + h, true)
    down = moved(at, i, mean - h, true)
    half = moved(at, i, mean + h / 2, true)
  }
  const scale = u / h
  const odd = (up - down) / 2
  const even = (up + down) / 2 - middle
  const cubic = (8 * (half - middle) - 2 * even - odd) / 3
  const smooth = Math.abs(odd - cubic) <= 0.1 * Math.abs(cubic)
  const first = (smooth ? cubic : odd) * scale
  const bends = broken === undefined ? scale * scale : 0
  let rough = false
  if (broken === undefined && Math.abs(even) > 0.05 * Math.abs(odd)) {
    // Over half the step a smooth bend is a quarter; a kink at the estimate is half, one beyond half the step nothing.
    const quarter = (half + moved(at, i, mean - h / 2)) / 2 - middle
    const most = Math.max(Math.abs(even), Math.abs(4 * quarter))
    rough = Math.abs(4 * quarter - even) > 0.2 * most
  }
  at.set(i, mean)
  return { first, rough, second: 2 * even * bends, third: (odd - cubic) * bends, sensitivity: first / u, broken }
}
