/** Kinds of part that a reader keeps, by the words of the file. */
export const kinds = ['amplifiers', 'sensors', 'transistors', 'capacitors', 'converters'] as const
export type Kind = (typeof kinds)[number]

/** A part of the reader's own: its name, and its limits as the library's record takes them. */
export interface Part {
  readonly kind: Kind
  readonly name: string
  readonly limits: object
}

/** Parts as they are kept and as they stand in a file of JSON: by kind, then by name. */
export type PartsByKind = Partial<Record<Kind, Record<string, object>>>

/** The longest name that a part may have. */
export const longestName = 60

const places: readonly (readonly [RegExp, Kind])[] = [
  [/^choice\.amplifier$/, 'amplifiers'],
  [/^choice\.sensor$/, 'sensors'],
  [/^choice\.transistor$/, 'transistors'],
  [/^choice\.capacitors\.\w+$/, 'capacitors'],
  [/^choice\.converter$/, 'converters'],
]

/** The kind of part that stands at a path of the call's arguments, if the reader can keep such parts. */
export const kindAt = (path: string | undefined): Kind | undefined =>
  places.find(([place]) => path !== undefined && place.test(path))?.[1]

/** Fields that belong to the design and not to the part: how many there are, and what it calls them. */
export const ofDesign: Readonly<Partial<Record<Kind, readonly string[]>>> = { capacitors: ['count', 'name'] }

/** Whether two entries are the same part; the later one replaces the earlier. */
export const isSame = (a: Pick<Part, 'kind' | 'name'>, b: Pick<Part, 'kind' | 'name'>): boolean =>
  a.kind === b.kind && a.name === b.name

/** Parts by kind and name. */
export const byKind = (parts: readonly Part[]): PartsByKind =>
  Object.fromEntries(
    kinds
      .map((kind) => [kind, parts.filter((part) => part.kind === kind)] as const)
      .filter(([, own]) => own.length > 0)
      .map(([kind, own]) => [kind, Object.fromEntries(own.map(({ name, limits }) => [name, limits]))]),
  )

/** Parts by kind and name as a list; what has not that shape is left out. */
export const listed = (given: unknown): Part[] =>
  kinds.flatMap((kind) =>
    entriesOf(isObject(given) && Object.hasOwn(given, kind) ? (given as PartsByKind)[kind] : undefined).flatMap(
      ([name, limits]) => (isObject(limits) ? [{ kind, name, limits }] : []),
    ),
  )

export const isObject = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const entriesOf = (value: unknown): [string, unknown][] => (isObject(value) ? Object.entries(value) : [])
