import type { Input, Range, Spread } from '../spread/spread.js'
import type { Field, Fields, RecordOf } from './field.js'

/** A spread that carries in its type what the field means: an editor shows it. */
export interface SpreadOf<_Unit extends string, _Meaning extends string> extends Spread {}

/** What may be given for a value: a number in the unit, a text, or a spread. */
type InputOf<T> = T extends { readonly unit: infer U extends string; readonly meaning: infer M extends string }
  ? number | string | SpreadOf<U, M>
  : Input

type MayBeAbsent<T> = T extends { readonly otherwise: unknown } | { readonly optional: true }
  ? true
  : T extends { readonly kind: 'part'; readonly fields: infer F extends Fields }
    ? RequiredOf<F> extends never
      ? true
      : false
    : false

type RequiredOf<F extends Fields> = { [W in keyof F]: MayBeAbsent<F[W]> extends true ? never : W }[keyof F]
type OptionalOf<F extends Fields> = Exclude<keyof F, RequiredOf<F>>

type GivenFields<F extends Fields> = { readonly [W in RequiredOf<F>]: GivenField<F[W]> } & {
  readonly [W in OptionalOf<F>]?: GivenField<F[W]> | undefined
}

type GivenField<T> = T extends { readonly kind: 'number' }
  ? number | string
  : T extends { readonly kind: 'range' }
    ? Range | (T extends { readonly orOne: true } ? number | string : never)
    : T extends { readonly kind: 'word'; readonly words: readonly (infer W)[] }
      ? W
      : T extends { readonly kind: 'part'; readonly fields: infer F extends Fields }
        ? GivenFields<F>
        : T extends { readonly kind: 'list'; readonly of: infer E }
          ? readonly GivenField<E>[]
          : T extends { readonly kind: 'kinds'; readonly kinds: infer K extends Readonly<Record<string, Fields>> }
            ? {
                [N in keyof K & string]:
                  | (RequiredOf<K[N]> extends never ? N : never)
                  | ({ readonly kind: N } & GivenFields<K[N]>)
              }[keyof K & string]
            : T extends { readonly kind: 'either'; readonly words: readonly (infer W)[]; readonly or: infer E }
              ? W | GivenField<E>
              : T extends { readonly kind: 'own'; readonly given?: infer G }
                ? G
                : InputOf<T>

type ReadFields<F extends Fields> = { readonly [W in keyof F]: ReadOrAbsent<F[W]> }

type ReadOrAbsent<T> =
  | ReadField<T>
  | (T extends { readonly optional: true } ? (T extends { readonly otherwise: unknown } ? never : undefined) : never)

type ReadField<T> = T extends { readonly as: (...args: never) => infer R }
  ? R
  : T extends { readonly kind: 'number' }
    ? number
    : T extends { readonly kind: 'range' }
      ? { readonly from: number; readonly to: number }
      : T extends { readonly kind: 'word'; readonly words: readonly (infer W)[] }
        ? W
        : T extends { readonly kind: 'part'; readonly fields: infer F extends Fields }
          ? ReadFields<F>
          : T extends { readonly kind: 'list'; readonly of: infer E }
            ? readonly ReadField<E>[]
            : T extends { readonly kind: 'kinds'; readonly kinds: infer K extends Readonly<Record<string, Fields>> }
              ? { [N in keyof K & string]: { readonly kind: N } & ReadFields<K[N]> }[keyof K & string]
              : T extends { readonly kind: 'either'; readonly words: readonly (infer W)[]; readonly or: infer E }
                ? W | ReadField<E>
                : T extends { readonly kind: 'own'; readonly read: (...args: never) => infer R }
                  ? R
                  : Spread

type FieldsOf<R> = R extends RecordOf<infer F> ? F : R extends Fields ? R : never

/** What a user writes for a record. */
export type Given<R extends RecordOf<any> | Fields> = GivenFields<FieldsOf<R>>

/** What is read of it: every field, in SI units. */
export type Read<R extends RecordOf<any> | Fields> = ReadFields<FieldsOf<R>>

/** Whether a field may be left out. */
export function mayBeAbsent(field: Field): boolean {
  if (field.optional || ('otherwise' in field && field.otherwise !== undefined)) return true
  return field.kind === 'part' && Object.values(field.fields as Fields).every(mayBeAbsent)
}
