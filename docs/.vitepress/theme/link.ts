import type { Texts } from './block.ts'

/** The choice as a query: what differs from the demo, as it was typed. */
export function toQuery(texts: Texts, demo: Texts): string {
  const changed = Object.entries(texts).filter(([id, text]) => text !== demo[id])
  const query = new URLSearchParams(changed).toString()
  return query === '' ? '' : `?${query}`
}

/** The choice that a link carries; what the page doesn't know is left out. */
export function fromQuery(query: string, demo: Texts): Texts {
  const given = new URLSearchParams(query)
  return Object.fromEntries(Object.keys(demo).map((id) => [id, given.get(id) ?? demo[id]!]))
}
