import { demoOf, type Field, type Form, fieldsOf, type Group, type Texts } from './block.ts'

/** The class of a group's preset whose values all stand in the fields, if any. */
export function classOf({ preset }: Pick<Group, 'preset'>, texts: Texts): string | undefined {
  const match = Object.entries(preset?.choices ?? {}).find(([, values]) =>
    Object.entries(values).every(([id, text]) => texts[id] === text),
  )
  return match?.[0]
}

/**
 * Entries that a link has beside those of the choice: how many there are, that none is missing at the end, and, where it leads
 * from the page of the whole, that the choice is a part of a design.
 */
const [count, end, part] = ['entries', 'end', 'part'] as const
const own: readonly string[] = [count, end, part]

/** A query that says that its choice is a part of a design. */
export const asPart = (query: string): string => `?${part}=design${query.replace('?', '&')}`
export const isPart = (query: string): boolean => new URLSearchParams(query).has(part)

/** The choice as a query: what differs from the demo, as it was typed; a class by its name. */
export function toQuery(form: Pick<Form, 'groups'>, texts: Texts): string {
  const demo = demoOf(form)
  const told: [key: string, text: string][] = []
  const covered = new Set<string>()
  for (const group of form.groups) {
    const name = classOf(group, texts)
    if (name === undefined || name === classOf(group, demo)) continue
    told.push([group.id, name])
    for (const id of Object.keys(group.preset!.choices[name]!)) covered.add(id)
  }
  for (const [id, text] of Object.entries(texts)) if (!covered.has(id) && text !== demo[id]) told.push([id, text])
  return told.length === 0 ? '' : `?${new URLSearchParams([[count, String(told.length)], ...told, [end, '']])}`
}

/** What a link carries, and in words what of it could not be used. */
export interface Carried {
  readonly texts: Texts
  readonly dropped: readonly string[]
}

/** The choice that a link carries. What the page can't use is left out, and named. */
export function fromQuery(form: Pick<Form, 'groups'>, query: string): Carried {
  const given = [...new URLSearchParams(query)]
  const texts: Record<string, string> = { ...demoOf(form) }
  const fields = new Map(fieldsOf(form).map((field) => [field.id, field]))
  const presets = new Map(form.groups.flatMap(({ id, preset }) => (preset ? [[id, preset] as const] : [])))
  const seen = new Set<string>()
  const dropped: string[] = []
  const single: [Field, string][] = []
  for (const [key, text] of given) {
    if (own.includes(key)) continue
    const entry = `“${shortened(text === '' ? key : `${key}=${text}`)}”`
    const [field, preset] = [fields.get(key), presets.get(key)]
    if (seen.has(key)) dropped.push(`${entry} appears twice; the first was used.`)
    else if (preset && Object.hasOwn(preset.choices, text)) Object.assign(texts, preset.choices[text])
    else if (preset) dropped.push(`${entry}: there is no such ${preset.label}.`)
    else if (field?.words && !field.words.includes(text)) dropped.push(`${entry}: allowed is ${listed(field.words)}.`)
    else if (field) single.push([field, text])
    else dropped.push(`${entry} names no field of this page.`)
    seen.add(key)
  }
  // A field by itself wins over the class that its group names, wherever they stand.
  for (const [{ id }, text] of single) texts[id] = text
  return { texts, dropped: [...dropped, ...cutOff(given)] }
}

/** Whether a link that was made here lost its end. One that was written by hand needn't count its entries. */
function cutOff(given: readonly (readonly [string, string])[]): string[] {
  const told = given.find(([key]) => key === count)?.[1]
  if (told === undefined) return []
  const arrived = given.filter(([key]) => !own.includes(key)).length
  if (arrived < Number(told)) return [`The link was cut: of ${told} entries ${arrived} arrived.`]
  return given.some(([key]) => key === end) ? [] : ['The link was cut: its last entry may lack its end.']
}

const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 60)}…` : text)
const listed = (words: readonly string[]): string =>
  [...words]
    .sort(emptyLast)
    .map((word) => word || 'nothing')
    .join(' or ')
const emptyLast = (a: string, b: string) => Number(a === '') - Number(b === '')
