import type { FieldSpec } from '../read/field.js'
import type { PartField } from '../read/read-part.js'

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

/** States what a choice is made of. */
/*#__NO_SIDE_EFFECTS__*/
export const record = <const F extends Fields>(fields: F, check?: Check): RecordOf<F> =>
  check === undefined ? { fields } : { fields, check }

/** The fields of two tables in one; a spread in an object's literal would keep both in every bundle. */
/*#__NO_SIDE_EFFECTS__*/
export const joined = <const A extends object, const B extends object>(one: A, other: B): Omit<A, keyof B> & B => ({
  ...one,
  ...other,
})

/** A value with its limits. */
/*#__NO_SIDE_EFFECTS__*/
export const spread = <const F extends Omit<SpreadField, 'kind'>>(field: F): F => field

/** A number that can't have a tolerance. */
/*#__NO_SIDE_EFFECTS__*/
export const exactly = <const F extends Omit<NumberField, 'kind'>>(field: F): F & { readonly kind: 'number' } => ({
  kind: 'number',
  ...field,
})

/** A range to cover. */
/*#__NO_SIDE_EFFECTS__*/
export const range = <const F extends Omit<RangeField, 'kind'>>(field: F): F & { readonly kind: 'range' } => ({
  kind: 'range',
  ...field,
})

/** One of a few words. */
/*#__NO_SIDE_EFFECTS__*/
export const word = <
  const W extends string | number | boolean,
  const M extends Pick<WordField<W>, 'meaning' | 'otherwise' | 'optional'>,
>(
  words: readonly W[],
  more: M,
): M & { readonly kind: 'word'; readonly words: readonly W[] } => ({ kind: 'word', words, ...more })

/** A part with fields of its own. */
/*#__NO_SIDE_EFFECTS__*/
export const part = <const F extends Fields, const M extends Pick<PartOf, 'meaning' | 'optional' | 'check' | 'as'>>(
  fields: F,
  more: M,
): M & { readonly kind: 'part'; readonly fields: F } => ({ kind: 'part', fields, ...more })

/** A list; how many it holds at least and at most is part of it. */
/*#__NO_SIDE_EFFECTS__*/
export const list = <
  const E extends Field,
  const M extends Pick<ListField, 'meaning' | 'least' | 'most' | 'optional' | 'check'>,
>(
  of: E,
  more: M,
): M & { readonly kind: 'list'; readonly of: E } => ({ kind: 'list', of, ...more })

/** One of several kinds, told apart by their field `kind`. */
/*#__NO_SIDE_EFFECTS__*/
export const kinds = <
  const K extends Readonly<Record<string, Fields>>,
  const M extends Pick<KindsField<K>, 'meaning' | 'otherwise' | 'optional' | 'check'>,
>(
  of: K,
  more: M,
): M & { readonly kind: 'kinds'; readonly kinds: K } => ({ kind: 'kinds', kinds: of, ...more })

/** A word, or a value in its place. */
/*#__NO_SIDE_EFFECTS__*/
export const either = <
  const W extends string,
  const E extends Field,
  const M extends Pick<EitherField<W>, 'meaning' | 'otherwise' | 'optional'>,
>(
  words: readonly W[],
  or: E,
  more: M,
): M & { readonly kind: 'either'; readonly words: readonly W[]; readonly or: E } => ({
  kind: 'either',
  words,
  or,
  ...more,
})

/** A field that is read in a way of its own; `G` is what may be given, `R` what is read. */
/*#__NO_SIDE_EFFECTS__*/
export const own =
  <G>() =>
  <R, const M extends Pick<OwnField<G>, 'meaning' | 'schema' | 'otherwise' | 'optional'>>(
    read: (given: unknown, field: string) => R,
    more: M,
  ): M & { readonly kind: 'own'; readonly read: (given: unknown, field: string) => R; readonly given?: G } => ({
    kind: 'own',
    read,
    ...more,
  })
