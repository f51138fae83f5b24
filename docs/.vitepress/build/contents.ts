import type { Header, PageData } from 'vitepress'
import { results } from '../../checked/results.data.ts'
import { chapters as pitfalls } from '../../pitfalls/pitfalls.data.ts'
import { chapters } from './catalogue.ts'

const header = (level: number, title: string, slug: string, children: Header[] = []): Header => ({
  level,
  title,
  slug,
  link: `#${slug}`,
  children,
})

/** Headings of the pages that are made from data, where Markdown has none to find. */
const made: Readonly<Record<string, (own: Header[]) => Header[] | Promise<Header[]>>> = {
  'formulas/index.md': async () =>
    (await chapters()).map(({ name, groups }) =>
      header(2, name, name, groups.length > 1 ? groups.map((group) => header(3, group.name, group.id)) : []),
    ),
  'pitfalls/index.md': () => pitfalls.map(({ letter, title }) => header(2, title, `chapter-${letter.toLowerCase()}`)),
  'checked/index.md': (own) => {
    const { read, memory, packages, formulas } = results()
    const parts = { 'read-at-their-source': ['read', read], 'from-memory': ['memory', memory] } as const
    return own.map((one) => {
      if (one.slug === 'formulas-by-hand')
        return { ...one, children: formulas.map(({ package: name }) => header(3, name, `by-hand-${name}`)) }
      const [prefix, rows] = parts[one.slug as keyof typeof parts] ?? []
      const names = packages.filter((name) => rows?.some((row) => row.package === name))
      return { ...one, children: names.map((name) => header(3, name, `${prefix}-${name}`)) }
    })
  },
}

/** Gives a page that is made from data the contents that it has. */
export async function contents({ relativePath, headers }: PageData): Promise<Partial<PageData> | undefined> {
  const make = made[relativePath]
  return make && { headers: await make(headers) }
}
