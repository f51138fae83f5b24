import { type FieldSpec, InputError, readNumber, readSpread } from '@ohmward/quantity'
import { type Field, type Form, fieldNow, fieldsOf, inUse, nameOf, type Texts } from './block.ts'
import type { Refusal } from './worker.ts'

/** Why each field that can't be read can't be, in the library's words, the field by its label; empty where all can. */
export function problemsOf(form: Form, texts: Texts): Record<string, string> {
  const problems: Record<string, string> = {}
  for (const own of fieldsOf(form)) {
    const field = fieldNow(own, texts)
    const text = texts[field.id]!.trim()
    // What an empty field means, the block's call says.
    const problem =
      text === '' || !inUse(field, texts) || field.free || field.words || field.also?.includes(text)
        ? undefined
        : problemOf(field, text)
    if (problem !== undefined) problems[field.id] = problem
  }
  return problems
}

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

/** What the block's call refuses, in the page's words: at which field, if the form has it, and why. */
export function problemAt(form: Form, { field: path, message, missing }: Refusal): Record<string, string> {
  const id = fieldOf(form, path)
  if (id === undefined) return { '': message }
  const label = nameOf(fieldsOf(form).find((field) => field.id === id)!)
  return { [id]: missing ? `${label}: a value is needed` : message.replace(`${path} = `, () => `${label} = `) }
}

/** The field's path inside its argument, as the library names it. */
export const shortName = (id: string): string => id.slice(id.indexOf('.') + 1)

/** The field that an error of the block's call names by its path; the first that its name begins with, for a missing part of one. */
function fieldOf(form: Form, path: string): string | undefined {
  const ids = fieldsOf(form).map(({ id }) => id)
  const dotted = path.replace(/\[(\d+)\]/g, '.$1')
  const names = [dotted, dotted.replace(/\.\w+$/, '')]
  return (
    ids.find((id) => names.includes(id) || names.includes(shortName(id))) ??
    ids.find((id) => shortName(id).startsWith(dotted) || id.startsWith(`${dotted}.`))
  )
}
