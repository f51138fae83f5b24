import { demoOf, type Form, type Group, type Texts } from './block.ts'

/** The class of a group's preset whose values all stand in the fields, if any. */
export function classOf({ preset }: Pick<Group, 'preset'>, texts: Texts): string | undefined {
  const match = Object.entries(preset?.choices ?? {}).find(([, values]) =>
    Object.entries(values).every(([id, text]) => texts[id] === text),
  )
  return match?.[0]
}

/** The choice as a query: what differs from the demo, as it was typed; a class by its name. */
export function toQuery(form: Pick<Form, 'groups'>, texts: Texts): string {
  const demo = demoOf(form)
  const query = new URLSearchParams()
  const told = new Set<string>()
  for (const group of form.groups) {
    const name = classOf(group, texts)
    if (name === undefined || name === classOf(group, demo)) continue
    query.set(group.id, name)
    for (const id of Object.keys(group.preset!.choices[name]!)) told.add(id)
  }
  for (const [id, text] of Object.entries(texts)) if (!told.has(id) && text !== demo[id]) query.set(id, text)
  return query.size === 0 ? '' : `?${query}`
}

/** The choice that a link carries; what the page doesn't know is left out. */
export function fromQuery(form: Pick<Form, 'groups'>, query: string): Texts {
  const given = new URLSearchParams(query)
  const demo = demoOf(form)
  const classes = form.groups.map(({ id, preset }) => preset?.choices[given.get(id) ?? ''] ?? {})
  const start: Texts = Object.assign({}, demo, ...classes)
  return Object.fromEntries(Object.keys(demo).map((id) => [id, given.get(id) ?? start[id]!]))
}
