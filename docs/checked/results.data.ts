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

/** A formula at a stated case, its arithmetic written out in plain numbers. */
export interface ByHand {
  readonly formula: string
  readonly quantity: string
  readonly unit: string
  readonly arithmetic: string
  readonly computed: number
}

/** The formulas of a package, and how many of them have a value from outside. */
export interface FormulaCount {
  readonly package: string
  readonly formulas: number
  readonly withValue: number
  readonly values: readonly ByHand[]
}

/** A quantity of a block's check, held against an independent model over random designs. */
export interface Sceptic {
  readonly block: string
  readonly quantity: string
  readonly count: number
  /** Largest share of the limit by which the worst board of the model was worse than the claim, and the claim than it. */
  readonly optimistic: number
  readonly pessimistic: number
}

interface Results {
  readonly published: readonly Published[]
  /** Those whose printed value was read at its source, and those that were not. */
  readonly read: readonly Published[]
  readonly memory: readonly Published[]
  /** The packages that they check, in order. */
  readonly packages: readonly string[]
  readonly traps: readonly Trap[]
  readonly sceptic: readonly Sceptic[]
  readonly formulas: readonly FormulaCount[]
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
    sceptic: read('sceptic.json'),
    formulas: read('formulas.json'),
  }
}

export default { watch: [`${folder}*.json`], load: results }
