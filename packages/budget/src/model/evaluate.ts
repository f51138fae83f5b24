import { type Input, InputError, type Spread } from '@ohmward/quantity'
import { readInput } from './evaluate-input.js'
import type { Columns, Inputs, Model, Row } from './model.js'

/** Inputs read once, in the order in which they were given. */
export interface CompiledInputs<K extends string> {
  readonly names: readonly K[]
  readonly spreads: readonly Spread[]
  /** Indices of the inputs that vary. */
  readonly varying: readonly number[]
}

/** Reads and checks every input once. */
export function compileInputs<K extends string>(inputs: Inputs<K>): CompiledInputs<K> {
  const names = Object.keys(inputs) as K[]
  // Looked up by name each would cost as much again as it takes to read it.
  const given = Object.values<Input>(inputs)
  const spreads: Spread[] = []
  const varying: number[] = []
  for (let i = 0; i < names.length; i++) {
    const spread = readInput(names[i]!, given[i]!)
    spreads.push(spread)
    if (spread.lower < spread.upper) varying.push(i)
  }
  return { names, spreads, varying }
}

/** The same inputs with some of them, each one that they have, at exact values. */
export function fixed<K extends string>(
  { names, spreads }: CompiledInputs<K>,
  values: Readonly<Record<string, number>>,
): CompiledInputs<K> {
  const all = spreads.slice()
  for (const name of Object.keys(values)) all[names.indexOf(name as K)] = readInput(name, values[name]!)
  return { names, spreads: all, varying: varyingOf(all) }
}

const varyingOf = (spreads: readonly Spread[]): number[] => {
  const varying: number[] = []
  for (let i = 0; i < spreads.length; i++) if (spreads[i]!.lower < spreads[i]!.upper) varying.push(i)
  return varying
}

/** Places for one value of each input: making some sixty columns costs as much as the budget that they serve. */
interface Held {
  readonly names: readonly string[]
  readonly held: Float64Array
  /** Columns of one value each, views of `held`. */
  readonly columns: Columns<string>
}

const kept = new WeakMap<object, Held>()

const isSame = (a: readonly string[], b: readonly string[]): boolean => {
  if (a === b) return true
  if (a.length !== b.length) return false
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false
  return true
}

function hold(names: readonly string[], row: object | undefined, reuse: boolean): Held {
  const before = row && reuse ? kept.get(row) : undefined
  if (before && isSame(names, before.names)) return before
  const held = new Float64Array(names.length)
  // Entry by entry an engine would make a dictionary of it, which is slow to look up.
  const columns = Object.fromEntries(row ? names.map((name, i) => [name, held.subarray(i, i + 1)]) : [])
  const made = { names, held, columns }
  if (row && reuse) kept.set(row, made)
  return made
}

/** A model with one set of values that is changed in place, so that an evaluation allocates nothing of its own. */
export class Evaluator {
  readonly #compiled: CompiledInputs<string>
  readonly #model: Model<string>
  readonly #row: Row<string> | undefined
  readonly #held: Float64Array
  readonly #columns: Columns<string>
  readonly #shared: Record<string, number>

  /** @param reuse - whether columns may be taken over from the last evaluator of the same row */
  constructor(compiled: CompiledInputs<string>, model: Model<string>, row: Row<string> | undefined, reuse: boolean) {
    const { held, columns } = hold(compiled.names, row, reuse)
    this.#compiled = compiled
    this.#model = model
    this.#row = row
    this.#held = held
    this.#columns = columns
    this.#shared = row ? {} : Object.fromEntries(compiled.names.map((name) => [name, 0]))
    this.reset()
  }

  /** Gives every input its nominal value, as at the start. */
  reset(): void {
    const { names, spreads } = this.#compiled
    const held = this.#held
    for (let i = 0; i < names.length; i++) held[i] = spreads[i]!.nominal
    if (this.#row === undefined) for (let i = 0; i < names.length; i++) this.#shared[names[i]!] = held[i]!
  }

  /** Gives input `i` a value. */
  set(i: number, value: number): void {
    this.#held[i] = value
    if (this.#row === undefined) this.#shared[this.#compiled.names[i]!] = value
  }

  get(i: number): number {
    return this.#held[i]!
  }

  /** The model at the values set; not checked, so it may be NaN. */
  value(): number {
    return this.#model(this.#row === undefined ? this.#shared : this.#row(this.#columns, 0))
  }

  /** Like {@link Evaluator.value}, but throws an InputError that names the input values where the result isn't finite. */
  finite(): number {
    const result = this.value()
    if (Number.isFinite(result)) return result
    const { names, varying } = this.#compiled
    const shown = varying.slice(0, 6).map((i) => `${names[i]} = ${this.get(i)}`)
    throw new InputError({
      field: 'result of the model',
      value: result,
      allowed: `a finite number${shown.length ? ` at ${shown.join(', ')}` : ''}${varying.length > 6 ? ', …' : ''}`,
    })
  }

  /** The values set, by name. */
  values(): Record<string, number> {
    return Object.fromEntries(this.#compiled.names.map((name, i) => [name, this.#held[i]!]))
  }
}

/** Prepares a model for many evaluations, through the block's `row` where it has one. */
export const evaluator = <K extends string>(compiled: CompiledInputs<K>, model: Model<K>, row?: Row<K>): Evaluator =>
  new Evaluator(compiled, model as Model<string>, row as Row<string> | undefined, false)

/** The same for an engine that is done with it before the next one of the same row begins: it may take over columns. */
export const briefEvaluator = <K extends string>(
  compiled: CompiledInputs<K>,
  model: Model<K>,
  row?: Row<K>,
): Evaluator => new Evaluator(compiled, model as Model<string>, row as Row<string> | undefined, true)
