import { existsSync, readFileSync } from 'node:fs'
import { root } from '../.vitepress/build/sources.ts'

/** A published value that the tests computed again. */
export interface Published {
  readonly id: string
  readonly package: string
  readonly source: string
  readonly fromMemory: boolean
  readonly quantity: string
  readonly unit: string
  readonly printed: number
  readonly tolerance: number
  readonly computed: number
  readonly difference: number
  readonly remark: string
}

/** A line of arithmetic from the collection of pitfalls, computed again apart from the packages and, where it can be, by them. */
export interface Trap {
  readonly trap: string
  readonly statement: string
  readonly unit: string
  readonly printed: number
  readonly tolerance: number
  readonly independent: number
  readonly library?: number | null
}

interface Results {
  readonly published: readonly Published[]
  /** Those whose printed value was read at its source, and those that were not. */
  readonly read: readonly Published[]
  readonly memory: readonly Published[]
  /** The packages that they check, in order. */
  readonly packages: readonly string[]
  readonly traps: readonly Trap[]
}

export declare const data: Results

const folder = `${root}test/results/`
const read = <T>(name: string): T[] =>
  existsSync(folder + name) ? JSON.parse(readFileSync(folder + name, 'utf8')) : []

/** What the tests found. */
export function results(): Results {
  const published = read<Published>('published.json')
  return {
    published,
    read: published.filter(({ fromMemory }) => !fromMemory),
    memory: published.filter(({ fromMemory }) => fromMemory),
    packages: [...new Set(published.map((row) => row.package))].sort(),
    traps: read('traps.json'),
  }
}

export default { watch: [`${folder}*.json`], load: results }
