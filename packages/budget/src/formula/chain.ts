import { demand, InputError } from '@ohmward/quantity'
import type { AnyFormula, Formula } from './formula.js'
import { demandFormulas } from './given.js'

type Formulas = readonly AnyFormula[]

/** The symbols that a list of formulas computes. */
export type ComputedBy<L extends Formulas> = L[number] extends Formula<any, infer S> ? S : never

/** Every symbol that a list of formulas reads. */
type ReadBy<L extends Formulas> = L[number] extends infer F ? (F extends Formula<infer K, any> ? K : never) : never

/** The symbols that a list of formulas reads and doesn't compute. */
export type NeededBy<L extends Formulas> = Exclude<ReadBy<L>, ComputedBy<L>>

/** A chain's place of work: its inputs, and beside them the values that it computes, all by symbol. */
export type PlaceOf<L extends Formulas, More extends string = never> = Record<ReadBy<L> | ComputedBy<L> | More, number>

/** Formulas in the order of calculation, and what follows from them. */
export interface Chain<L extends Formulas, More extends string = never> {
  readonly formulas: L
  /** Symbols that must be there before the calculation, each once. */
  readonly inputs: readonly (NeededBy<L> | More)[]
  /** Symbols that the calculation leaves, in its order. */
  readonly computed: readonly ComputedBy<L>[]
  /** A place in which nothing stands yet: NaN everywhere, and every place of a chain of one shape, so that it stays fast. */
  readonly place: () => PlaceOf<L, More>
}

/**
 * Makes a chain of formulas: its place of work, the place's type, and the lists of inputs and results follow from them.
 * The calls that fill a place are written by hand beside it; stores by name would cost four times as much.
 *
 * @param more - inputs that no formula reads but that stand in the place too
 * @throws InputError for what is no formula; where one reads what only a later one computes, or two compute one symbol
 */
/*#__NO_SIDE_EFFECTS__*/
export function chain<const L extends Formulas, const More extends string = never>(
  formulas: L,
  more: readonly More[] = [],
): Chain<L, More> {
  demandFormulas(formulas)
  demandSymbols(more, 'more')
  const computed = formulas.map(({ symbol }) => symbol as string)
  const inputs = new Set<string>(more)
  formulas.forEach((f, i) => {
    if (computed.indexOf(f.symbol) < i) wrong(i, f.symbol, 'a symbol that no other computes')
    for (const symbol of Object.keys(f.inputs)) {
      const from = computed.indexOf(symbol)
      if (from >= i) wrong(i, f.symbol, `a place behind ${symbol}, which it reads`)
      if (from < 0) inputs.add(symbol)
    }
  })
  return {
    formulas,
    inputs: [...inputs] as (NeededBy<L> | More)[],
    computed: computed as ComputedBy<L>[],
    place: emptyPlaces([...inputs, ...computed]) as () => PlaceOf<L, More>,
  }
}

const wrong = (i: number, value: string, allowed: string): never => {
  throw new InputError({ field: `formulas[${i}]`, value, allowed })
}

/** Throws unless they are texts in a list or in another collection. */
function demandSymbols(symbols: Iterable<string>, field: string): void {
  const isCollection = typeof symbols === 'object' && symbols !== null && Symbol.iterator in symbols
  demand(isCollection, { field, value: symbols, allowed: 'a list of symbols' })
  for (const value of symbols) demand(typeof value === 'string', { field, value, allowed: 'texts' })
}

/** So many names a parser of JSON makes fields of numbers of; with more it makes a dictionary. */
const parsed = 127

/**
 * Makes objects with these names, NaN in each. A large one begins as parsed text, whose fields hold a number themselves:
 * a store costs a sixth of what it costs in a large one filled by name, and leaves nothing to be collected.
 */
function emptyPlaces(names: readonly string[]): () => Record<string, number> {
  // Entry by entry an engine would make a dictionary of it, which is slow to look up; a spread copy has several shapes.
  const template = Object.fromEntries(names.map((name) => [name, NaN]))
  if (names.length <= parsed) return () => Object.assign({}, template)
  const text = JSON.stringify(Object.fromEntries(names.slice(0, parsed).map((name) => [name, 0.5])))
  return () => Object.assign(JSON.parse(text), template)
}

/**
 * Every symbol behind those named: what they are computed from, down to the inputs, themselves included. From this
 * follows what a margin depends on.
 *
 * @throws InputError for what is no list of formulas or of symbols
 */
export function behind(formulas: Formulas, symbols: Iterable<string>): ReadonlySet<string> {
  demandFormulas(formulas)
  demandSymbols(symbols, 'symbols')
  const found = new Set(symbols)
  const backwards = [...formulas].reverse()
  // In the order of calculation one way back finds all, and the next one nothing more.
  for (let size = 0; found.size > size; ) {
    size = found.size
    for (const f of backwards) if (found.has(f.symbol)) for (const symbol of Object.keys(f.inputs)) found.add(symbol)
  }
  return found
}
