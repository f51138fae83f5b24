import type { AnyFormula, Assessment, Changes, Margin } from '@ohmward/budget'
import type { FieldSpec, Series } from '@ohmward/quantity'
import { readText, standing } from './form/texts.ts'

/** One field of the form. Its `id` is its path in the arguments of the block's call: `choice.amplifier.offsetVoltage`. */
export interface Field extends Omit<FieldSpec, 'field'> {
  readonly id: string
  /** What it is, in words. */
  readonly label: string
  readonly symbol?: string
  /** What stands in it at first, as a person writes it. */
  readonly demo: string
  /** Arrow up and down step along this series of preferred values. */
  readonly series?: Series
  /** The words to choose from, where it takes no number with a unit. */
  readonly words?: readonly string[]
  /** Words that it takes beside a number: `rail`. */
  readonly also?: readonly string[]
  /** What the library takes where the field is empty, as text. */
  readonly otherwise?: string
  /** Takes more than one kind of value; only the block's call can tell. */
  readonly free?: true
  /** A size without a sign: what is typed is its largest value. */
  readonly magnitude?: boolean
  /** Takes a number without a spread. */
  readonly plain?: true
  /** Shown and used only while other fields hold one of these words each. */
  readonly when?: readonly When[]
  /** What differs where the last of them is another kind. */
  readonly kinds?: Readonly<Record<string, FieldOfKind>>
  /** What else is to be said of it. */
  readonly note?: string
  /** The part inside the choice that it belongs to, in words. */
  readonly part?: string
  /** Which end of a range it is. */
  readonly end?: 'from' | 'to'
  /** Belongs to a part that may be absent: then all its fields are empty. */
  readonly loose?: true
  /** May be left empty. */
  readonly spare?: true
  /** The demo gives it: it goes into the call even where the library would take the same. */
  readonly given?: true
  /** Names of fields below it, one for each place at which its value may be another. */
  readonly each?: readonly string[]
  /** How its text is to be understood, where it is neither a number nor a word. */
  readonly code?: 'text' | 'own' | 'boolean' | 'list' | 'lists'
}

/** Another field, and words of which it must hold one. */
export interface When {
  readonly id: string
  readonly is: readonly string[]
}

/** What a field says where it belongs to one kind of several. */
export type FieldOfKind = Pick<
  Partial<{ [K in keyof Field]: Field[K] | undefined }>,
  'otherwise' | 'spare' | 'label' | 'note'
>

/** Whether a field is in use, given what stands in the others. */
export const inUse = ({ when = [] }: Field, texts: Texts): boolean =>
  when.every(({ id, is }) => is.includes(texts[id]!))

/** A field as it is for the kind that is chosen. */
export function fieldNow(field: Field, texts: Texts): Field {
  const kind = field.when?.at(-1)
  const own = kind && field.kinds?.[texts[kind.id]!]
  if (!own) return field
  const { otherwise: _, note: __, spare: ___, ...rest } = field
  return {
    ...rest,
    ...(Object.fromEntries(Object.entries(own).filter(([, value]) => value !== undefined)) as Partial<Field>),
  }
}

/** Its name in one line, as an error says it. */
export const nameOf = ({ label, end }: { readonly label: string; readonly end?: Field['end'] | undefined }): string =>
  end === undefined ? label : `${label}, ${end === 'from' ? 'lowest' : 'highest'}`

/** A part that can be had in several classes: choosing one fills its fields. */
export interface Preset {
  readonly label: string
  readonly choices: Readonly<Record<string, Readonly<Record<string, string>>>>
  /** Where the part is in the call's arguments: `choice.amplifier`; parts of the reader's own can go there too. */
  readonly path?: string
}

/** Fields that belong together. */
export interface Group {
  readonly id: string
  readonly title: string
  readonly note?: string
  readonly fields: readonly Field[]
  readonly preset?: Preset
  /** Folded at first, for what is seldom changed, under this line. */
  readonly folded?: string
}

/** What people typed, by field. */
export type Texts = Readonly<Record<string, string>>

/** The block's call arguments, nested as the fields' paths say. */
export type Arguments = Readonly<Record<string, any>>

/** Margins over a range of one condition. */
export interface Sweep {
  readonly quantity: string
  readonly symbol: string
  readonly unit: string
  readonly points: readonly number[]
  readonly curves: readonly SweptMargin[]
  /** The margin to show at first, unless only others cross zero. */
  readonly first: string
  /** The range that the choice must work over. */
  readonly asked?: readonly [from: number, to: number]
}

/** One margin along a sweep. */
export interface SweptMargin extends Pick<Margin, 'id' | 'name' | 'unit'> {
  readonly worst: readonly number[]
  readonly nominal: readonly number[]
  /** Where the worst case crosses zero; absent where it doesn't. */
  readonly crossing?: number
}

/** A budget to show, and what its output ought to be. */
export interface Output {
  /** Its name among the assessment's budgets. */
  readonly name: string
  readonly label: string
  readonly truth?: number
  /** What it must lie in. */
  readonly window?: readonly [number, number]
}

/** Preferred values that were looked for in the place of what stands in some fields, each choice checked. */
export interface Sizing {
  /** What was looked for, among what. */
  readonly sought: string
  /** What the reader may say of the values that are looked for: tolerance, series. */
  readonly asks: readonly SizingAsk[]
  /** What holds, the best first: its values, what the check says, and what puts it into the form. */
  readonly choices: readonly { readonly name: string; readonly says: string; readonly puts: Texts }[]
  /** What was rejected, and why. */
  readonly rejected: readonly { readonly name: string; readonly says: string }[]
  /** How many weren't looked at in full, or what it would take, in words; may be empty. */
  readonly text: string
}

/** Told how many of the candidates are settled. */
export type Progress = (settled: number, of: number) => void

/** Something that the reader may say of a sizing. */
export interface SizingAsk {
  readonly name: string
  readonly label: string
  readonly words: readonly string[]
  /** What was taken. */
  readonly chosen: string
}

/** What a worked page needs in the reader's window: the form, and what to show of an answer. */
export interface Form {
  /** The name of the package, of the page, and of the folder that describes it. */
  readonly id: string
  /** The call shown as code. */
  readonly call: string
  /** Names of the call's arguments, in order: the first part of each field's `id`. */
  readonly arguments: readonly string[]
  readonly groups: readonly Group[]
  /** The budgets to show, the most telling first. */
  readonly outputs: (x: Arguments, assessment: Assessment) => readonly Output[]
}

/** A whole block: the form, and what computes. It runs at build and in a worker, so it imports nothing but packages. */
export interface Block extends Form {
  readonly check: (x: Arguments, simulate: boolean) => Assessment
  /** Margins over the discharge, where that applies. */
  readonly sweep?: (x: Arguments) => Sweep
  /** What can be done where something doesn't hold, each change tried. */
  readonly changes?: (x: Arguments) => Changes
  /** Which preferred values would do, or do better; among which, where the reader says so. */
  readonly size: (x: Arguments, wanted?: Texts, progress?: Progress) => Sizing
  /** The block's formulas, in the order of calculation. */
  readonly formulas: () => readonly AnyFormula[]
  /** Units of symbols that no formula states. */
  readonly units?: Readonly<Record<string, string>>
  /** What an input's symbol stands for, in words. */
  readonly names?: Readonly<Record<string, string>>
}

export const fieldsOf = (block: Pick<Form, 'groups'>): readonly Field[] => block.groups.flatMap(({ fields }) => fields)

/** What stands in the fields at first. */
export const demoOf = (block: Pick<Form, 'groups'>): Texts =>
  Object.fromEntries(fieldsOf(block).map(({ id, demo }) => [id, demo]))

/** Nothing of the demo: what the library takes otherwise is left to it, and where a word must stand it is the usual one. */
export const emptyOf = (block: Pick<Form, 'groups'>): Texts =>
  Object.fromEntries(fieldsOf(block).map((field) => [field.id, standing(field, '')]))

/** Whether a field that is empty must be given: nothing is taken in its place, and its part isn't one that may be absent. */
export const isNeeded = ({ spare, loose, otherwise, words }: Field): boolean =>
  !spare && !loose && otherwise === undefined && words === undefined

/** The arguments that the fields in use make. */
export function argumentsOf(block: Pick<Form, 'groups'>, texts: Texts): Arguments {
  const values: Record<string, unknown> = {}
  for (const field of fieldsOf(block)) {
    const text = texts[field.id]!.trim()
    const isUsual = field.words !== undefined && text === field.otherwise && !field.given
    if (text === '' || isUsual || !inUse(field, texts)) continue
    values[field.id] = readText(field, text)
  }
  // A kind that is usual may be left out only with all that belongs to it.
  for (const { id, words } of fieldsOf(block)) {
    if (!words || !id.endsWith('.kind') || id in values || !texts[id]) continue
    const part = id.slice(0, -'kind'.length)
    if (Object.keys(values).some((other) => other.startsWith(part))) values[id] = texts[id]
  }
  for (const { id, each = [] } of fieldsOf(block)) apart(values, id, each)
  return nest(values)
}

/** One value for all places alike: where a place has its own, each is given by itself. */
function apart(values: Record<string, unknown>, id: string, each: readonly string[]): void {
  const alike = values[id]
  if (alike === undefined || !each.some((name) => `${id}.${name}` in values)) return
  delete values[id]
  for (const name of each) values[`${id}.${name}`] ??= alike
}

/**
 * Values by path as the arguments of the block's call: `a.b` = "1 V" becomes `{ a: { b: '1 V' } }`, and `a.0` a list. What
 * is empty isn't there, so the library says what it takes instead, or that it is missing.
 */
export function nest(values: Readonly<Record<string, unknown>>): Arguments {
  const root: Record<string, any> = {}
  for (const [id, value] of Object.entries(values)) {
    const steps = id.split('.')
    const last = steps.pop()!
    let here = root
    steps.forEach((step, i) => {
      here = here[step] ??= /^\d+$/.test(steps[i + 1] ?? last) ? [] : {}
    })
    here[last] = value
  }
  return root
}
