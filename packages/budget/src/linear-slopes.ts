import type { Evaluator } from './evaluate.js'

/** What ten evaluations say about one input, each number in the output's unit for a move of one standard uncertainty. */
export interface Slope {
  /** First order: partial derivative times standard uncertainty. */
  readonly first: number
  /** Second derivative times variance, from the steps ±u; 0 where the model breaks within them. */
  readonly second: number
  /** The same from the steps ±u/2; it agrees where the model is smooth. */
  readonly secondHalf: number
  /** Partial derivative. */
  readonly sensitivity: number
  /** Where the model gave no finite result, if anywhere within ±u. */
  readonly broken?: number
}

/** Step below which an input's own digits are used up: the derivative is then taken over this part of its value. */
const smallestStep = 1e-9

/**
 * Derivatives of the model with respect to input `i` by central differences.
 *
 * The steps are ±u and ±u/2. Steps of the size of u keep all digits and are what JCGM 100:2008, 5.1.3, note 2 allows;
 * Richardson's extrapolation from the two removes the third derivative from the first, so what remains is of fifth
 * order in u. Where the two disagree in the rough, the model isn't smooth there and the plain difference over ±u stands.
 */
export function slope(at: Evaluator, i: number, mean: number, u: number, middle: number): Slope {
  const step = Math.max(u, Math.abs(mean) * smallestStep)
  let broken: number | undefined
  const move = (by: number): number => {
    at.set(i, mean + by)
    return at.value()
  }
  let h = step
  let up = move(h)
  let down = move(-h)
  let upHalf = move(h / 2)
  let downHalf = move(-h / 2)
  if (!Number.isFinite(up + down + upHalf + downHalf)) {
    broken = mean + (Number.isFinite(up) ? (Number.isFinite(down) ? h / 2 : -h) : h)
    h = step / 1024
    at.set(i, mean + h)
    up = at.finite()
    at.set(i, mean - h)
    down = at.finite()
    at.set(i, mean + h / 2)
    upHalf = at.finite()
    at.set(i, mean - h / 2)
    downHalf = at.finite()
  }
  at.set(i, mean)
  const whole = (up - down) / (mean + h - (mean - h))
  const half = (upHalf - downHalf) / (mean + h / 2 - (mean - h / 2))
  const smooth = Math.abs(whole - half) <= 0.1 * Math.abs(half)
  const sensitivity = smooth ? (4 * half - whole) / 3 : whole
  const scale = broken === undefined ? (u / h) * (u / h) : 0
  return {
    first: sensitivity * u,
    second: (up + down - 2 * middle) * scale,
    secondHalf: 4 * (upHalf + downHalf - 2 * middle) * scale,
    sensitivity,
    ...(broken !== undefined && { broken }),
  }
}
