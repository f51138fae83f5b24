import type {
  Check,
  EitherField,
  Field,
  Fields,
  KindsField,
  ListField,
  NumberField,
  OwnField,
  PartOf,
  RangeField,
  RecordOf,
  SpreadField,
  WordField,
} from './field.js'
import { demandCheck, demandFields, made } from './valid.js'

/** States what a choice is made of. @throws InputError naming what a field says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const record = <const F extends Fields>(fields: F, check?: Check): RecordOf<F> => {
  demandFields(fields)
  demandCheck(check)
  return check === undefined ? { fields } : { fields, check }
}

/**
 * The fields of two tables in one; a spread in an object's literal would keep both in every bundle.
 *
 * @throws InputError naming what a field says wrongly of itself
 */
/*#__NO_SIDE_EFFECTS__*/
export const joined = <const A extends Fields, const B extends Fields>(one: A, other: B): Omit<A, keyof B> & B => {
  demandFields(one, 'one')
  demandFields(other, 'other')
  return { ...one, ...other }
}

/** A value with its limits. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const spread = <const F extends Omit<SpreadField, 'kind'>>(field: F): F => made(field)

/** A number that can't have a tolerance. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const exactly = <const F extends Omit<NumberField, 'kind'>>(field: F): F & { readonly kind: 'number' } =>
  made({ kind: 'number', ...field })

/** A range to cover. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const range = <const F extends Omit<RangeField, 'kind'>>(field: F): F & { readonly kind: 'range' } =>
  made({ kind: 'range', ...field })

/** One of a few words. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const word = <
  const W extends string | number | boolean,
  const M extends Pick<WordField<W>, 'meaning' | 'otherwise' | 'optional'>,
>(
  words: readonly W[],
  more: M,
): M & { readonly kind: 'word'; readonly words: readonly W[] } => made({ kind: 'word', words, ...more })

/** A part with fields of its own. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const part = <const F extends Fields, const M extends Pick<PartOf, 'meaning' | 'optional' | 'check' | 'as'>>(
  fields: F,
  more: M,
): M & { readonly kind: 'part'; readonly fields: F } => made({ kind: 'part', fields, ...more })

/** A list; how many it holds at least and at most is part of it. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const list = <
  const E extends Field,
  const M extends Pick<ListField, 'meaning' | 'least' | 'most' | 'optional' | 'check'>,
>(
  of: E,
  more: M,
): M & { readonly kind: 'list'; readonly of: E } => made({ kind: 'list', of, ...more })

/** One of several kinds, told apart by their field `kind`. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const kinds = <
  const K extends Readonly<Record<string, Fields>>,
  const M extends Pick<KindsField<K>, 'meaning' | 'otherwise' | 'optional' | 'check'>,
>(
  of: K,
  more: M,
): M & { readonly kind: 'kinds'; readonly kinds: K } => made({ kind: 'kinds', kinds: of, ...more })

/** A word, or a value in its place. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const either = <
  const W extends string,
  const E extends Field,
  const M extends Pick<EitherField<W>, 'meaning' | 'otherwise' | 'optional'>,
>(
  words: readonly W[],
  or: E,
  more: M,
): M & { readonly kind: 'either'; readonly words: readonly W[]; readonly or: E } =>
  made({ kind: 'either', words, or, ...more })

/** A field that is read in a way of its own; `G` is what may be given, `R` what is read. @throws InputError naming what it says wrongly of itself */
/*#__NO_SIDE_EFFECTS__*/
export const own =
  <G>() =>
  <R, const M extends Pick<OwnField<G>, 'meaning' | 'schema' | 'otherwise' | 'optional'>>(
    read: (given: unknown, field: string) => R,
    more: M,
  ): M & { readonly kind: 'own'; readonly read: (given: unknown, field: string) => R; readonly given?: G } =>
    made({ kind: 'own', read, ...more })
