import { readFileSync } from 'node:fs'
import { root, shown } from '../sources.ts'

/** One entry of a package's manifest, and where its page stands: `@ohmward/budget/statistics`, `budget-statistics`. */
export interface Entry {
  readonly name: string
  readonly package: string
  readonly page: string
  readonly types: string
  /** What it is for, in a line without its dot. */
  readonly description: string
}

/** What the entries beside a package's own are for. */
const parts: Readonly<Record<string, string>> = {
  '@ohmward/budget/statistics':
    'Normal and t distributions, moments of a spread, and the risk of accepting by a measurement',
  '@ohmward/decoupling/waveform': 'The rail followed in time: a step, its release, and PWM in its steady state',
}

function describedAs(name: string, own = parts[name]): string {
  if (own === undefined) throw new Error(`${name}: say in a line what it is for`)
  return own
}

/** Entries that a reader imports from, formulas apart: those have a page of their own, and what they are made of is the packages' own. */
export const entries: readonly Entry[] = shown.flatMap((name) => {
  const folder = `${root}packages/${name}`
  const { exports, description } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8')) as {
    description: string
    exports: Record<string, string | { types: string }>
  }
  return Object.entries(exports).flatMap(([path, entry]) =>
    typeof entry === 'string' || ['./formula', './formulas', './command'].includes(path)
      ? []
      : [
          {
            name: `@ohmward/${name}${path.slice(1)}`,
            package: name,
            page: `${name}${path.slice(1).replace('/', '-')}`,
            types: `${folder}/${entry.types}`,
            description: describedAs(`@ohmward/${name}${path.slice(1)}`, path === '.' ? description : undefined),
          },
        ],
  )
})
