import type { CompiledInputs, Evaluator } from '../model/evaluate.js'

/** A value of the model and where it was met. */
export interface Best {
  value: number
  place: number[]
}

/** Value of an input at a fraction of its width, exact at both limits. */
export function within(lower: number, upper: number, fraction: number): number {
  return fraction === 0 ? lower : fraction === 1 ? upper : lower + (upper - lower) * fraction
}

/**
 * The box of limits of the inputs that vary, and the best values of the model met inside it so far. A place inside the
 * box is a list of fractions, 0 at the lower limit and 1 at the upper.
 */
export class Box {
  readonly size: number
  /** Fraction of the nominal value, by input. */
  readonly nominal: readonly number[]
  readonly best: { readonly lower: Best; readonly upper: Best }
  evaluations = 1
  /** Values at the first place without a finite result. */
  broken: Readonly<Record<string, number>> | undefined
  readonly #evaluator: Evaluator
  readonly #here: number[]
  /** Index of each input. */
  readonly #index: readonly number[]
  readonly #value: readonly number[]
  readonly #lower: readonly number[]
  readonly #upper: readonly number[]

  /** @throws InputError where the model gives no finite result at the nominal values */
  constructor(compiled: CompiledInputs<string>, evaluator: Evaluator) {
    const { spreads, varying } = compiled
    this.size = varying.length
    this.#index = varying
    this.#value = varying.map((i) => spreads[i]!.nominal)
    this.#lower = varying.map((i) => spreads[i]!.lower)
    this.#upper = varying.map((i) => spreads[i]!.upper)
    this.nominal = varying.map((i) => {
      const { nominal, lower, upper } = spreads[i]!
      return (nominal - lower) / (upper - lower)
    })
    const value = evaluator.finite()
    this.best = { lower: { value, place: this.nominal.slice() }, upper: { value, place: this.nominal.slice() } }
    this.#evaluator = evaluator
    this.#here = this.nominal.slice()
  }

  /** The model at a place; NaN and infinities come back as NaN and are remembered. */
  at(place: readonly number[]): number {
    this.#go(place)
    return this.#evaluate()
  }

  /** The same for a look that isn't to be remembered: of places that give the same, the plainest is to be named. */
  glance(place: readonly number[]): number {
    this.#go(place)
    this.evaluations++
    const value = this.#evaluator.value()
    return Number.isFinite(value) ? value : this.#break()
  }

  #go(place: readonly number[]): void {
    const here = this.#here
    for (let k = 0; k < here.length; k++) if (here[k] !== place[k]) this.put(k, place[k]!)
  }

  /** The model with input `k` moved; the other inputs stay where the last call left them. */
  move(k: number, fraction: number): number {
    this.put(k, fraction)
    return this.#evaluate()
  }

  /** Moves input `k` without evaluating. */
  put(k: number, fraction: number): void {
    this.#here[k] = fraction
    this.#evaluator.set(this.#index[k]!, this.valueAt(k, fraction))
  }

  /** Value of input `k` at a fraction of its width, exact at both limits and at its nominal value. */
  valueAt(k: number, fraction: number): number {
    return fraction === this.nominal[k] ? this.#value[k]! : within(this.#lower[k]!, this.#upper[k]!, fraction)
  }

  #evaluate(): number {
    this.evaluations++
    const value = this.#evaluator.value()
    const { lower, upper } = this.best
    if (value > upper.value) {
      if (value === Infinity) return this.#break()
      this.#keep(upper, value)
    } else if (value < lower.value) {
      if (value === -Infinity) return this.#break()
      this.#keep(lower, value)
    } else if (Number.isNaN(value)) return this.#break()
    return value
  }

  #break(): number {
    this.broken ??= this.#evaluator.values()
    return Number.NaN
  }

  #keep(record: Best, value: number): void {
    record.value = value
    record.place = this.#here.slice()
  }
}
