import type { Input } from '../spread/spread.js'
import type { FieldSpec } from './field.js'

/** One field of a part, as its data sheet states it. */
export interface PartField extends Omit<FieldSpec, 'field'> {
  /** The symbol that formulas use for it. */
  readonly symbol: string
  /** What it is, in words, and which limit of the data sheet to take. */
  readonly meaning: string
  /** The data sheet gives a size without a sign: a bare 10 µV enters as 0 ± 10 µV, limits of 0 and more as their upper. */
  readonly magnitude?: true
  /** Every part has a tolerance here, such as a resistor: a value without one is said to be taken as exact. */
  readonly hasTolerance?: true
  /** Taken where nothing is given; a field without it must be there. */
  readonly otherwise?: Input
}

/** Fields of a part by the words that its user writes. This table is the published one, from words to symbols. */
export type PartFields = Readonly<Record<string, PartField>>

/** What a user writes for a part with these fields. */
export type PartInput<F extends PartFields> = {
  readonly [W in keyof F as F[W] extends { otherwise: Input } ? never : W]: Input
} & { readonly [W in keyof F as F[W] extends { otherwise: Input } ? W : never]?: Input }
