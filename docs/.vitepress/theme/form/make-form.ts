import type { Fields } from '@ohmward/quantity'
import type { Field, Form, Group, Preset, Texts } from '../block.ts'
import { type FormOptions, fieldsOfRecord, inWords } from './record-fields.ts'
import { classesOf, standing, textsFor } from './texts.ts'

/** A group of a form: which fields it takes, by the beginnings of their paths, and how it is shown. */
export interface GroupSpec extends Omit<Group, 'fields' | 'preset'> {
  readonly takes: readonly string[]
  /** Classes of a part to choose from. */
  readonly classes?: { readonly label: string; readonly path: string; readonly of: Readonly<Record<string, object>> }
  /** Whole choices with their conditions. */
  readonly scenarios?: { readonly label: string; readonly of: Readonly<Record<string, object>> }
  /** Or sets of texts. */
  readonly preset?: Preset
}

/** A form, as a page describes it: everything about a field that the record says is left to the record. */
export interface FormSpec extends Pick<Form, 'id' | 'call' | 'outputs'>, FormOptions {
  readonly choice: { readonly fields: Fields }
  readonly conditions: { readonly fields: Fields }
  /** What stands in the form at first. */
  readonly demo: { readonly choice: object; readonly conditions: object }
  readonly groups: readonly GroupSpec[]
}

/** Makes a form from a block's records. A field that no group takes stands in the last one, so that none is left out. */
export function makeForm({ id, call, outputs, choice, conditions, demo, groups, ...options }: FormSpec): Form {
  const bare = [
    ...fieldsOfRecord(choice.fields, 'choice', options),
    ...fieldsOfRecord(conditions.fields, 'conditions', options),
  ]
  const texts = textsFor(bare, demo)
  const fields = bare.map((field): Field => {
    const text = texts[field.id]!
    return { ...field, demo: standing(field, text), ...(text !== '' && { given: true as const }) }
  })
  const homes = new Map(fields.map((field) => [field.id, homeOf(field.id, groups)]))
  return {
    id,
    call,
    arguments: ['choice', 'conditions'],
    outputs,
    groups: groups.map(({ takes, classes, scenarios, preset, ...group }, i): Group => {
      const own = fields.filter((field) => (homes.get(field.id) ?? groups.length - 1) === i)
      const order = (field: Field) => takes.indexOf(longest(takes, field.id))
      const choices = classes && wordsOf(classesOf(fields, classes.path, classes.of))
      const filled = choices
        ? { label: classes.label, choices, path: classes.path }
        : scenarios
          ? { label: scenarios.label, choices: wholes(fields, scenarios.of) }
          : preset
      return {
        ...group,
        fields: own
          .map((field) => [order(field), field] as const)
          .sort((a, b) => a[0] - b[0])
          .map(([, field]) => field),
        ...(filled && { preset: filled }),
      }
    }),
  }
}

/** Whole choices as texts; fields in which they don't differ stay as they are. */
function wholes(fields: readonly Field[], choices: Readonly<Record<string, object>>): Readonly<Record<string, Texts>> {
  const texts = Object.entries(choices).map(([name, one]) => [name, textsFor(fields, one)] as const)
  const differs = ({ id }: Field) => texts.some(([, one]) => one[id] !== texts[0]![1][id])
  const own = fields.filter(differs)
  return Object.fromEntries(
    texts.map(([name, one]) => [
      name,
      Object.fromEntries(own.map((field) => [field.id, standing(field, one[field.id]!)])),
    ]),
  )
}

const isIn = (path: string, id: string): boolean => id === path || id.startsWith(`${path}.`)

/** The path that says most of where a field belongs. */
const longest = (takes: readonly string[], id: string): string =>
  takes.filter((path) => isIn(path, id)).reduce((a, b) => (b.length > a.length ? b : a), '')

/** The group that takes a field: the one whose path says most. */
function homeOf(id: string, groups: readonly GroupSpec[]): number | undefined {
  const lengths = groups.map(({ takes }) => longest(takes, id).length)
  const most = Math.max(...lengths)
  return most === 0 ? undefined : lengths.indexOf(most)
}

const wordsOf = <T>(by: Readonly<Record<string, T>>): Record<string, T> =>
  Object.fromEntries(Object.entries(by).map(([name, one]) => [inWords(name), one]))
