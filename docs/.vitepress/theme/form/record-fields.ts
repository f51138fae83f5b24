import { type Fields, format, type Field as RecordField, type Series } from '@ohmward/quantity'
import type { Field, When } from '../block.ts'
import { isSpread } from './texts.ts'

/** What a record doesn't say of its form. */
export interface FormOptions {
  /** How many of a list the form has room for, by path: `choice.errors`. */
  readonly rooms?: Readonly<Record<string, number>>
  /** Lists whose parts go by names instead of numbers. */
  readonly names?: Readonly<Record<string, readonly string[]>>
  /** Fields that take one value for all places or one for each: the places by name, each with its label, and what to say of the value. */
  readonly each?: Readonly<Record<string, { readonly note: string; readonly places: Readonly<Record<string, string>> }>>
  /** What stands in the place of a field that is read in a way of its own. */
  readonly instead?: Readonly<Record<string, RecordField>>
}

/** Where a field stands: its path, the part that it belongs to, and while which kinds it is used. */
interface Place {
  readonly id: string
  readonly part: string
  readonly when: readonly When[]
  /** Belongs to a part that may be absent. */
  readonly loose: boolean
}

/**
 * The fields of a form, one for each that the record has: label, symbol, unit, limits and what is taken otherwise are the
 * library's own. A field that several kinds have stands there once.
 */
export function fieldsOfRecord(fields: Fields, root: string, options: FormOptions = {}): Field[] {
  return entries(fields, { id: root, part: '', when: [], loose: false }, options)
}

const entries = (fields: Fields, place: Place, options: FormOptions): Field[] =>
  Object.entries(fields).flatMap(([word, field]) => walk(field, { ...place, id: `${place.id}.${word}` }, options))

function walk(given: RecordField, place: Place, options: FormOptions): Field[] {
  const field = options.instead?.[place.id] ?? given
  const inside = (id: string, words = inWords(id.slice(id.lastIndexOf('.') + 1))): Place => ({
    ...place,
    id,
    // A part of the same name is named once: the source of a supply's source.
    part: place.part === '' ? words : place.part.split(', ').at(-1) === words ? place.part : `${place.part}, ${words}`,
  })
  const spare = field.optional ? { spare: true as const } : {}
  switch (field.kind) {
    case 'part':
      return entries(field.fields, { ...inside(place.id), loose: place.loose || field.optional === true }, options)
    case 'range': {
      const { kind: _, meaning, otherwise, optional: __, orOne: ___, ...limits } = field
      return (['from', 'to'] as const).map((end) => ({
        ...told(meaning, place, `${place.id}.${end}`),
        ...limits,
        ...spare,
        end,
        plain: true,
        ...taken(otherwise?.[end], field),
      }))
    }
    case 'number': {
      const { kind: _, meaning, otherwise, optional: __, ...limits } = field
      return [{ ...told(meaning, place), ...limits, ...spare, plain: true, ...taken(otherwise, field) }]
    }
    case 'word': {
      const { words, otherwise, meaning } = field
      const all = [...(field.optional || place.loose ? [''] : []), ...words.map(String)]
      const codes = typeof words[0] === 'boolean' ? { code: 'boolean' as const } : {}
      return [{ ...told(meaning, place), unit: '1', words: all, ...codes, ...spare, ...taken(otherwise, field) }]
    }
    case 'list':
      return listed(field.of, field.meaning, place, options, inside)
    case 'kinds':
      return ofKinds(field.kinds, place, options, inside, field)
    case 'either': {
      if (field.or.kind === 'part') return entries(field.or.fields, inside(place.id), options)
      const [one, ...more] = walk(field.or, place, options)
      const { otherwise: _, ...value } = one!
      return [
        { ...value, ...told(field.meaning, place), also: field.words, ...spare, ...taken(field.otherwise, field) },
        ...more,
      ]
    }
    case 'own': {
      const isText = (field.schema as { readonly type?: unknown }).type === 'string'
      const more = taken(typeof field.otherwise === 'object' ? undefined : field.otherwise, field)
      const bare = { unit: '1', free: true, code: isText ? 'text' : 'own', ...spare, ...more } as const
      const each = options.each?.[place.id]
      if (!each) return [{ ...told(field.meaning, place), ...bare }]
      const own = { ...told(field.meaning, place), ...bare, note: each.note, each: Object.keys(each.places) }
      return [
        own,
        ...Object.entries(each.places).map(([name, label]) => ({
          ...told(label, place, `${place.id}.${name}`),
          ...bare,
          spare: true as const,
          otherwise: 'as for all',
        })),
      ]
    }
    default: {
      const { kind: _, meaning, otherwise, optional: __, ...limits } = field
      const series = seriesFor(field.unit)
      return [{ ...told(meaning, place), ...limits, ...spare, ...(series && { series }), ...taken(otherwise, field) }]
    }
  }
}

/** A list: of values as one text, of parts as so many as the form has room for. */
function listed(
  of: RecordField,
  meaning: string,
  place: Place,
  options: FormOptions,
  inside: (id: string, words?: string) => Place,
): Field[] {
  if (of.kind !== 'part' && of.kind !== 'kinds') {
    const deep = of.kind === 'list'
    const said = `${meaning}; ${deep ? 'groups separated by semicolons' : 'separated by commas'}`
    return [{ ...told(said, place), unit: '1', free: true, spare: true, code: deep ? 'lists' : 'list' }]
  }
  const names = options.names?.[place.id] ?? Array.from({ length: options.rooms?.[place.id] ?? 1 }, (_, i) => String(i))
  const one = inWords(place.id.slice(place.id.lastIndexOf('.') + 1)).replace(/s$/, '')
  return names.flatMap((name) => {
    const words = /^\d+$/.test(name) ? `${one} ${Number(name) + 1}` : `${name} ${one}`
    const spot = { ...inside(`${place.id}.${name}`, words), loose: true }
    const own = of.kind === 'part' ? entries(of.fields, spot, options) : walk(of, spot, options)
    return own
  })
}

/** One of several kinds: a field for the kind, and each field that some of them have. */
function ofKinds(
  kinds: Readonly<Record<string, Fields>>,
  place: Place,
  options: FormOptions,
  inside: (id: string) => Place,
  { meaning, otherwise, optional }: { meaning: string; otherwise?: string; optional?: true },
): Field[] {
  const id = `${place.id}.kind`
  const names = Object.keys(kinds)
  const kind: Field = {
    ...told(meaning, place, id),
    unit: '1',
    words: optional || place.loose ? ['', ...names] : names,
    ...(otherwise !== undefined && { otherwise }),
  }
  const found = new Map<string, Field>()
  for (const name of names) {
    const when = [...place.when, { id, is: [name] }]
    for (const field of entries(kinds[name]!, { ...inside(place.id), when }, options)) {
      const before = found.get(field.id)
      found.set(field.id, before ? shared(before, field, name) : field)
    }
  }
  return [kind, ...found.values()]
}

/** The same field of one kind more; where the kinds differ in what they take otherwise, each keeps its own. */
function shared(before: Field, field: Field, name: string): Field {
  const last = before.when!.length - 1
  const when = before.when!.map((one, i) => (i === last ? { ...one, is: [...one.is, name] } : one))
  const { otherwise, spare, label, note } = field
  const differs = otherwise !== before.otherwise || label !== before.label
  return {
    ...before,
    when,
    ...(differs && { kinds: { ...before.kinds, [name]: { otherwise, spare, label, note } } }),
  }
}

/** A meaning as a label and what else is to be said; what stands in brackets stays together. */
function told(
  meaning: string,
  { id, part, when, loose }: Place,
  own = id,
): Pick<Field, 'id' | 'label' | 'demo'> & Partial<Field> {
  const cut = /[;:] (?![^(]*\))/.exec(meaning)
  const [label, note] = cut ? [meaning.slice(0, cut.index), meaning.slice(cut.index + 2)] : [meaning]
  return {
    id: own,
    label,
    demo: '',
    ...(note !== undefined && { note }),
    ...(part !== '' && { part }),
    ...(loose && { loose: true as const }),
    ...(when.length > 0 && { when }),
  }
}

function taken(otherwise: unknown, field: RecordField): { readonly otherwise?: string } {
  if (otherwise === undefined) return {}
  const unit = 'unit' in field ? field.unit : undefined
  const written = (value: unknown) =>
    typeof value === 'number' && unit !== undefined ? format(value, unit, { ascii: true }) : String(value)
  const text = isSpread(otherwise) ? `${written(otherwise.lower)} to ${written(otherwise.upper)}` : written(otherwise)
  const isSize = 'magnitude' in field && field.magnitude && otherwise !== 0 && !text.includes('±')
  return { otherwise: `${isSize ? '±' : ''}${text}` }
}

/** Values along which the arrows step. */
const seriesFor = (unit: string): Series | undefined => (unit === 'ohm' ? 'E24' : unit === 'F' ? 'E6' : undefined)

/** `zeroDrift` as `zero drift`, `pwm` as `PWM`; a name in words stays. */
export const inWords = (name: string): string =>
  name
    .replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`)
    .replace(/^(pwm|cmos)\b/, (word) => word.toUpperCase())
    .replace(/^further$/, 'further error')
