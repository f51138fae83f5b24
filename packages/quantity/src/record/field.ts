import type { FieldSpec } from '../read/field.js'
import type { PartField } from '../read/part-field.js'

/** Limits and unit of a number, as a field states them. */
type Limits = Omit<FieldSpec, 'field'>

/** A value with its limits: given as a number, a text such as `47 ohm ±1 %` or a spread. */
export interface SpreadField extends PartField {
  readonly kind?: 'spread'
  readonly optional?: true
}

/** A number that can't have a tolerance: what the firmware assumes, how many there are. */
export interface NumberField extends Limits {
  readonly kind: 'number'
  readonly symbol?: string
  readonly meaning: string
  readonly otherwise?: number | string
  readonly optional?: true
}

/** A range to cover: every value in it must work. */
export interface RangeField extends Limits {
  readonly kind: 'range'
  readonly meaning: string
  /** Whether one value may stand for both ends. */
  readonly orOne?: true
  readonly otherwise?: { readonly from: number | string; readonly to: number | string }
  readonly optional?: true
}

/** One of a few words, numbers or truth values. */
export interface WordField<W extends string | number | boolean = string | number | boolean> {
  readonly kind: 'word'
  readonly words: readonly W[]
  readonly meaning: string
  readonly otherwise?: W
  readonly optional?: true
}

/** A part with fields of its own. */
export interface PartOf<F extends Fields = Fields> {
  readonly kind: 'part'
  readonly fields: F
  readonly meaning: string
  readonly optional?: true
  readonly check?: Check
  /** Puts what was read into another shape, such as spreads by their symbols. */
  readonly as?: (read: any, field: string) => unknown
}

/** A list of parts or values: points of a curve, capacitors, wanted errors. */
export interface ListField<E extends Field = Field> {
  readonly kind: 'list'
  readonly of: E
  readonly least: number
  readonly most: number
  readonly meaning: string
  readonly optional?: true
  readonly check?: Check
}

/** One of several kinds, each with fields of its own; a kind without required fields may be given as its bare word. */
export interface KindsField<K extends Readonly<Record<string, Fields>> = Readonly<Record<string, Fields>>> {
  readonly kind: 'kinds'
  readonly kinds: K
  readonly meaning: string
  readonly otherwise?: keyof K & string
  readonly optional?: true
  readonly check?: Check
}

/** A word, or a value in its place: `'rail'` or a voltage. */
export interface EitherField<W extends string = string, E extends Field = Field> {
  readonly kind: 'either'
  readonly words: readonly W[]
  readonly or: E
  readonly meaning: string
  readonly otherwise?: W
  readonly optional?: true
}

/** A field that is read in a way of its own. */
export interface OwnField<G = unknown, R = unknown> {
  readonly kind: 'own'
  readonly read: (given: unknown, field: string) => R
  readonly schema: object
  readonly meaning: string
  readonly otherwise?: G
  readonly optional?: true
}

/** What a record is made of. A field without `kind` is a value with limits, as in a table of a part. */
export type Field =
  | SpreadField
  | NumberField
  | RangeField
  | WordField
  | PartOf<any>
  | ListField<any>
  | KindsField<any>
  | EitherField<string, any>
  | OwnField<any, any>

/** Fields by the words that a user writes. */
export type Fields = Readonly<Record<string, Field>>

/**
 * What no single field can say: throws an InputError. It gets what was read, where it stands in the caller's words, and
 * what was given, which the error shows.
 */
export type Check = (read: any, field: string, given: any) => void

/** What a choice or a part is made of; its reader, its types, its schema and its form follow from it. */
export interface RecordOf<F extends Fields> {
  readonly fields: F
  readonly check?: Check
}
