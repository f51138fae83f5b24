import { InputError, type Spread } from '@ohmward/quantity'
import { readInput } from './evaluate-input.js'
import type { Values } from './formula.js'
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
  const spreads: Spread[] = []
  const varying: number[] = []
  for (let i = 0; i < names.length; i++) {
    const spread = readInput(names[i]!, inputs[names[i]!])
    spreads.push(spread)
    if (spread.lower < spread.upper) varying.push(i)
  }
  return { names, spreads, varying }
}

/** A model with one set of values that is changed in place, so that an evaluation allocates nothing of its own. */
export interface Evaluator {
  /** Gives input `i` a value. All start at their nominal values. */
  set(i: number, value: number): void
  get(i: number): number
  /** The model at the values set; not checked, so it may be NaN. */
  value(): number
  /** Like {@link Evaluator.value}, but throws an InputError that names the input values where the result isn't finite. */
  finite(): number
  /** The values set, by name. */
  values(): Record<string, number>
}

interface Held {
  readonly names: readonly string[]
  readonly columns: Readonly<Record<string, Float64Array>>
  readonly list: readonly Float64Array[]
}

/** Columns of one value each, by row function: making some sixty of them costs as much as the budget that they serve. */
const kept = new WeakMap<object, Held>()

function hold(names: readonly string[], row: object, reuse: boolean): Held {
  const before = reuse ? kept.get(row) : undefined
  if (before && before.names.length === names.length && names.every((name, i) => name === before.names[i]))
    return before
  const list = names.map(() => new Float64Array(1))
  const held = { names, list, columns: Object.fromEntries(names.map((name, i) => [name, list[i]!])) }
  if (reuse) kept.set(row, held)
  return held
}

/** Prepares a model for many evaluations, through the block's `row` where it has one. */
export function evaluator<K extends string>(compiled: CompiledInputs<K>, model: Model<K>, row?: Row<K>): Evaluator {
  return prepare(compiled, model, row, false)
}

/** The same for an engine that is done with it before the next one of the same row begins: it may take over columns. */
export function briefEvaluator<K extends string>(
  compiled: CompiledInputs<K>,
  model: Model<K>,
  row?: Row<K>,
): Evaluator {
  return prepare(compiled, model, row, true)
}

function prepare<K extends string>(
  { names, spreads, varying }: CompiledInputs<K>,
  model: Model<K>,
  row: Row<K> | undefined,
  reuse: boolean,
): Evaluator {
  const { columns, list: held } = row ? hold(names, row, reuse) : { columns: {}, list: [] }
  const shared = {} as Record<K, number>
  for (let i = 0; i < names.length; i++) {
    const { nominal } = spreads[i]!
    if (row) held[i]![0] = nominal
    else shared[names[i]!] = nominal
  }
  const value = row ? () => model(row(columns as Columns<K>, 0)) : () => model(shared as Values<K>)
  const get = row ? (i: number) => held[i]![0]! : (i: number) => shared[names[i]!]
  const set = row
    ? (i: number, x: number) => {
        held[i]![0] = x
      }
    : (i: number, x: number) => {
        shared[names[i]!] = x
      }
  const finite = () => {
    const result = value()
    if (Number.isFinite(result)) return result
    const shown = varying.slice(0, 6).map((i) => `${names[i]} = ${get(i)}`)
    throw new InputError({
      field: 'result of the model',
      value: result,
      allowed: `a finite number${shown.length ? ` at ${shown.join(', ')}` : ''}${varying.length > 6 ? ', …' : ''}`,
    })
  }
  const values = () => {
    const all: Record<string, number> = {}
    for (let i = 0; i < names.length; i++) all[names[i]!] = get(i)
    return all
  }
  return { set, get, value, finite, values }
}
