import { InputError, readNumber, readSpread } from '@ohmward/quantity'
import { type Field, type Form, fieldsOf, inUse, type Texts } from './block.ts'

/** Why each field that can't be read can't be, in the library's words; empty where all can. */
export function problemsOf(form: Form, texts: Texts): Record<string, string> {
  const problems: Record<string, string> = {}
  for (const field of fieldsOf(form)) {
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
  const {
    id,
    plain,
    label: _,
    demo: __,
    series: ___,
    symbol: ____,
    words: _____,
    also: ______,
    otherwise: _______,
    when: ________,
    free: _________,
    ...limits
  } = field
  try {
    const spec = { ...limits, field: shortName(id) }
    if (plain) readNumber(text, spec)
    else readSpread(text, spec)
    return undefined
  } catch (error) {
    if (error instanceof InputError) return error.message
    throw error
  }
}

/** The field's path inside its argument, as the library names it. */
export const shortName = (id: string): string => id.slice(id.indexOf('.') + 1)

/** The field that an error of the block's call names by its path; the first that its name begins with, for a missing part of one. */
export function fieldOf(form: Form, path: string): string | undefined {
  const ids = fieldsOf(form).map(({ id }) => id)
  const dotted = path.replace(/\[(\d+)\]/g, '.$1')
  const names = [dotted, dotted.replace(/\.\w+$/, '')]
  return (
    ids.find((id) => names.includes(id) || names.includes(shortName(id))) ??
    ids.find((id) => shortName(id).startsWith(dotted) || id.startsWith(`${dotted}.`))
  )
}
