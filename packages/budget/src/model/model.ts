import type { Input } from '@ohmward/quantity'
import type { Values } from '../formula/formula.js'

/** A model over named inputs: one number from many. */
export type Model<K extends string> = (x: Values<K>) => number

/** Inputs by name, each a number (exact) or a spread, in SI units. A text is refused: nothing says in which unit. */
export type Inputs<K extends string> = Readonly<Record<K, Input>>

/** Columns of numbers by input name: `columns.R_ref[i]` is the value of `R_ref` in row `i`. */
export type Columns<K extends string> = Readonly<Record<K, Float64Array>>

/**
 * Builds the model's argument from row `i` of the columns, as one object literal. A block hands it to the engine so
 * that its chain always sees one object shape; without it the engine uses one shared accessor view.
 */
export type Row<K extends string> = (columns: Columns<K>, i: number) => Values<K>

/**
 * Evaluates the model in rows 0 to `n - 1` of the columns: a loop that belongs to the block alone, so that it stays fast
 * whatever else has run through the engine. Optional; it must give what the model gives.
 *
 * `(c, out, n) => { for (let i = 0; i < n; i++) out[i] = chain(row(c, i)).R_ind }`
 */
export type Fill<K extends string> = (columns: Columns<K>, out: Float64Array, n: number) => void

/** Correlation coefficient of two inputs, -1 to 1. Prefer one shared input where physics allows. */
export interface Correlation<K extends string> {
  readonly between: readonly [K, K]
  readonly coefficient: number
}

/** Inputs whose contributions add linearly before the rest is combined in quadrature, as some data sheets state. */
export interface Group<K extends string> {
  readonly name: string
  readonly inputs: readonly K[]
}

/** What the three engines share. */
export interface EngineOptions<K extends string> {
  readonly row?: Row<K>
  readonly fill?: Fill<K>
  readonly correlations?: readonly Correlation<K>[]
  readonly groups?: readonly Group<K>[]
  /** Level of confidence of the intervals; 0.95 by default. */
  readonly level?: number
}

/** What linear propagation takes besides. */
export interface LinearOptions<K extends string> extends EngineOptions<K> {
  /** Coverage factor of the interval, instead of a level of confidence: 2 is usual (JCGM 100:2008, 6.2.1). */
  readonly k?: number
  /** Unit of the output: the doubts tell their sizes in it. */
  readonly unit?: string
}
