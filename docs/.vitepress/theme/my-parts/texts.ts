import { argumentsOf, type Field, type Form, fieldsOf, type Texts } from '../block.ts'
import { classesOf } from '../form/texts.ts'
import { isObject, kindAt, ofDesign, type Part } from './part.ts'

const lastOf = (path: string) => path.slice(path.lastIndexOf('.') + 1)

/** The fields of the part at a path, without those that belong to the design. */
export function fieldsAt(form: Pick<Form, 'groups'>, path: string): Field[] {
  const kind = kindAt(path)
  const aside = (kind && ofDesign[kind]) ?? []
  return fieldsOf(form).filter(({ id }) => id.startsWith(`${path}.`) && !aside.includes(id.slice(path.length + 1)))
}

/** What stands in the fields at a path once a part is put there; what it doesn't give is emptied. */
export const textsOfPart = (form: Pick<Form, 'groups'>, path: string, limits: object): Texts =>
  classesOf(fieldsAt(form, path), path, { limits })['limits']!

/** Whether all that a part says stands in the fields, whatever the design calls it. */
export const stands = (part: Texts, texts: Texts): boolean =>
  Object.entries(part).every(([id, text]) => id.endsWith('.name') || texts[id] === text)

/** The part that stands in the fields at a path, as the block's call takes it; undefined where there is none. */
export function limitsAt(form: Pick<Form, 'groups'>, path: string, texts: Texts): object | undefined {
  const group = { id: lastOf(path), title: '', fields: fieldsAt(form, path) }
  let here: unknown = argumentsOf({ groups: [group] }, texts)
  for (const step of path.split('.')) here = isObject(here) ? (here as Record<string, unknown>)[step] : undefined
  return isObject(here) ? here : undefined
}

/** Texts to put in: where the design had no such part, and counts them, there is one. */
export function textsToPut(form: Pick<Form, 'groups'>, path: string, part: Texts, texts: Texts): Texts {
  const count = `${path}.count`
  const isCounted = fieldsOf(form).some(({ id }) => id === count)
  const isThere = Object.values(part).some((text) => text !== '')
  if (!isCounted) return part
  const more = isThere ? { [count]: texts[count] || '1' } : { [count]: '' }
  return { [`${path}.name`]: '', ...part, ...more }
}

/** A part of the reader's own, as texts. */
export interface OwnTexts {
  readonly name: string
  readonly texts: Texts
}

/** The reader's parts that can go to a path of a form. */
export const ownAt = (form: Pick<Form, 'groups'>, path: string | undefined, parts: readonly Part[]): OwnTexts[] => {
  const kind = kindAt(path)
  return path === undefined || kind === undefined
    ? []
    : parts
        .filter((part) => part.kind === kind)
        .map(({ name, limits }) => ({ name, texts: textsOfPart(form, path, limits) }))
}
