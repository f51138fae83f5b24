import type { CompiledInputs, Evaluator } from './evaluate.js'

/**
 * The box of limits and what is known of the model inside it: the best values met so far, and in which direction each
 * input was seen to act. A place inside the box is a list of fractions, 0 at the lower limit and 1 at the upper.
 */
export interface Box {
  readonly size: number
  /** Fraction of the nominal value, by input. */
  readonly nominal: readonly number[]
  /** The model at a place; NaN and infinities come back as NaN and are remembered. */
  at(place: readonly number[]): number
  /** The model with input `k` moved; the other inputs stay where the last call left them. */
  move(k: number, fraction: number): number
  /** Moves input `k` without evaluating. */
  put(k: number, fraction: number): void
  readonly best: { readonly lower: Best; readonly upper: Best }
  evaluations: number
  /** Values at the first place without a finite result. */
  broken?: Record<string, number>
}

/** A value of the model and where it was met. */
export interface Best {
  value: number
  place: number[]
}

/** Value of an input at a fraction of its width, exact at both limits. */
export function within(lower: number, upper: number, fraction: number): number {
  return fraction === 0 ? lower : fraction === 1 ? upper : lower + (upper - lower) * fraction
}

/** The box of the inputs that vary. */
export function boxOf({ spreads, varying }: CompiledInputs<string>, evaluator: Evaluator): Box {
  const lower = varying.map((i) => spreads[i]!.lower)
  const upper = varying.map((i) => spreads[i]!.upper)
  const nominal = varying.map((i, k) => (spreads[i]!.nominal - lower[k]!) / (upper[k]! - lower[k]!))
  const here = [...nominal]
  const middle = evaluator.finite()
  const best = { lower: { value: middle, place: [...nominal] }, upper: { value: middle, place: [...nominal] } }
  const set = (k: number, fraction: number) => {
    here[k] = fraction
    const input = varying[k]!
    evaluator.set(input, fraction === nominal[k] ? spreads[input]!.nominal : within(lower[k]!, upper[k]!, fraction))
  }
  const evaluate = (): number => {
    box.evaluations++
    const value = evaluator.value()
    if (!Number.isFinite(value)) {
      box.broken ??= evaluator.values()
      return Number.NaN
    }
    if (value > best.upper.value) keep(best.upper, value)
    else if (value < best.lower.value) keep(best.lower, value)
    return value
  }
  const keep = (record: Best, value: number) => {
    record.value = value
    for (let k = 0; k < here.length; k++) record.place[k] = here[k]!
  }
  const box: Box = {
    size: varying.length,
    nominal,
    best,
    evaluations: 1,
    at(place) {
      for (let k = 0; k < place.length; k++) if (here[k] !== place[k]) set(k, place[k]!)
      return evaluate()
    },
    move(k, fraction) {
      set(k, fraction)
      return evaluate()
    },
    put: set,
  }
  return box
}
