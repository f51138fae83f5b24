import type { CompiledInputs, Evaluator } from './evaluate.js'

/** A value of the model and where it was met. */
export interface Best {
  value: number
  readonly place: Float64Array
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
  readonly nominal: Float64Array
  readonly best: { readonly lower: Best; readonly upper: Best }
  evaluations = 1
  /** Values at the first place without a finite result. */
  broken: Readonly<Record<string, number>> | undefined
  readonly #compiled: CompiledInputs<string>
  readonly #evaluator: Evaluator
  readonly #here: Float64Array

  /** @throws InputError where the model gives no finite result at the nominal values */
  constructor(compiled: CompiledInputs<string>, evaluator: Evaluator) {
    const { spreads, varying } = compiled
    this.size = varying.length
    this.nominal = Float64Array.from(varying, (i) => {
      const { nominal, lower, upper } = spreads[i]!
      return (nominal - lower) / (upper - lower)
    })
    const value = evaluator.finite()
    this.best = { lower: { value, place: this.nominal.slice() }, upper: { value, place: this.nominal.slice() } }
    this.#compiled = compiled
    this.#evaluator = evaluator
    this.#here = this.nominal.slice()
  }

  /** The model at a place; NaN and infinities come back as NaN and are remembered. */
  at(place: Float64Array): number {
    const here = this.#here
    for (let k = 0; k < here.length; k++) if (here[k] !== place[k]) this.put(k, place[k]!)
    return this.#evaluate()
  }

  /** The model with input `k` moved; the other inputs stay where the last call left them. */
  move(k: number, fraction: number): number {
    this.put(k, fraction)
    return this.#evaluate()
  }

  /** Moves input `k` without evaluating. */
  put(k: number, fraction: number): void {
    this.#here[k] = fraction
    const input = this.#compiled.varying[k]!
    const { nominal, lower, upper } = this.#compiled.spreads[input]!
    this.#evaluator.set(input, fraction === this.nominal[k] ? nominal : within(lower, upper, fraction))
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
    record.place.set(this.#here)
  }
}
