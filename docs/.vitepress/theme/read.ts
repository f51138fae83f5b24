import { type FieldSpec, InputError, type InputProblem, readNumber, readSpread } from '@ohmward/quantity'
import { type Field, type Form, fieldNow, fieldsOf, inUse, isNeeded, nameOf, type Texts } from './block.ts'
import type { Refusal } from './worker.ts'

/** Why each field that can't be read can't be, in the library's words, the field by its label; empty where all can. */
export function problemsOf(form: Form, texts: Texts): Record<string, string> {
  const problems: Record<string, string> = {}
  for (const own of fieldsOf(form)) {
    const field = fieldNow(own, texts)
    const text = texts[field.id]!.trim()
    if (!inUse(field, texts)) continue
    if (text === '') {
      if (isNeeded(field) && !field.each?.some((name) => texts[`${field.id}.${name}`] !== ''))
        problems[field.id] = neededText(field)
      continue
    }
    const problem = field.free || field.words || field.also?.includes(text) ? undefined : problemOf(field, text)
    if (problem !== undefined) problems[field.id] = problem
  }
  return problems
}

const neededText = (field: Pick<Field, 'label' | 'end'>): string => `${nameOf(field)}: a value is needed`

function problemOf(field: Field, text: string): string | undefined {
  try {
    if (field.plain) readNumber(text, specOf(field))
    else readSpread(text, specOf(field))
    return undefined
  } catch (error) {
    if (error instanceof InputError) return withWords(field, error.message)
    throw error
  }
}

/** A refusal of a field that takes words beside a number names them too, as the block's call does. */
const withWords = ({ also = [] }: Field, message: string): string =>
  also.length === 0
    ? message
    : message.replace('allowed is ', () => `allowed is ${also.map((word) => `"${word}" or `).join('')}`)

/** What a field takes, under the name that the page gives it. */
export function specOf({ label, end, unit, min, max, above, below, integer }: Field): FieldSpec {
  const limits = Object.entries({ min, max, above, below, integer }).filter(([, limit]) => limit !== undefined)
  return { field: nameOf({ label, end }), unit, ...Object.fromEntries(limits) }
}

/** What the block's call refuses, in the page's words: at which fields, if the form has them, and why; of two at one field the first. */
export function problemAt(form: Form, { also = [], ...first }: Refusal): Record<string, string> {
  const each = [first, ...also].map((one) => problemOfOne(form, one))
  return Object.assign({}, ...each.reverse())
}

function problemOfOne(form: Form, { field: path, message, missing }: Refusal): Record<string, string> {
  const id = fieldOf(form, path)
  if (id === undefined) return { '': message }
  const either = alternativesIn(form, path, message)
  if (either !== undefined) return { [either[0]!.id]: `${either.map(nameOf).join(' or ')}: give just one of them` }
  const field = fieldsOf(form).find((one) => one.id === id)!
  return { [id]: missing ? neededText(field) : message.replace(`${path} = `, () => `${nameOf(field)} = `) }
}

/** The fields of which a refusal takes just one: what it names in braces. */
function alternativesIn(form: Form, path: string, message: string): Field[] | undefined {
  const names = [...message.matchAll(/\{ (\w+) \}/g)].map(([, name]) => `${path}.${name}`)
  const fields = names.flatMap((name) => fieldsOf(form).find(({ id }) => shortName(id) === name) ?? [])
  return fields.length > 1 ? fields : undefined
}

/** The field's path inside its argument, as the library names it. */
export const shortName = (id: string): string => id.slice(id.indexOf('.') + 1)

/** The field that an error of the block's call names by its path; the first that its name begins with, for a missing part of one. */
function fieldOf(form: Form, path: string): string | undefined {
  const ids = fieldsOf(form).map(({ id }) => id)
  const dotted = path.replace(/\[(\d+)\]/g, '.$1')
  const called = (name: string) => ids.find((id) => id === name || shortName(id) === name)
  return (
    called(dotted) ??
    called(dotted.replace(/\.\w+$/, '')) ??
    ids.find((id) => shortName(id).startsWith(dotted) || id.startsWith(`${dotted}.`))
  )
}

/**
 * An error's field and words, and those of the other fields of the same record; where a field is empty that may not be,
 * that field, and no list of all the others.
 */
export function refusalOf({ also, ...first }: Omit<InputProblem, 'also'> & Pick<InputError, 'also'>): Refusal {
  const own = refusalOfOne(first)
  return also.length === 0 ? own : { ...own, also: also.map(refusalOfOne) }
}

function refusalOfOne({ field, value, unit = '', allowed, hint = '' }: InputProblem): Refusal {
  const missing = /^Missing: (\w+)/.exec(hint)?.[1]
  if (missing !== undefined) return { field: `${field}.${missing}`, message: hint, missing: true }
  return { field, message: new InputError({ field, value, unit, allowed, hint }).message }
}
