import { readFileSync } from 'node:fs'
import { root, shown } from '../sources.ts'

/** One entry of a package's manifest, and where its page stands: `@ohmward/budget/statistics`, `budget-statistics`. */
export interface Entry {
  readonly name: string
  readonly package: string
  readonly page: string
  readonly types: string
}

/** Entries that a reader imports from, formulas apart: those have a page of their own. */
export const entries: readonly Entry[] = shown.flatMap((name) => {
  const folder = `${root}packages/${name}`
  const { exports } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8')) as {
    exports: Record<string, string | { types: string }>
  }
  return Object.entries(exports).flatMap(([path, entry]) =>
    typeof entry === 'string' || ['./formulas', './command'].includes(path)
      ? []
      : [
          {
            name: `@ohmward/${name}${path.slice(1)}`,
            package: name,
            page: `${name}${path.slice(1).replace('/', '-')}`,
            types: `${folder}/${entry.types}`,
          },
        ],
  )
})
