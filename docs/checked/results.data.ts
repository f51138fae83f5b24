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
  readonly traps: readonly Trap[]
}

export declare const data: Results

const folder = `${root}test/results/`
const read = <T>(name: string): T[] =>
  existsSync(folder + name) ? JSON.parse(readFileSync(folder + name, 'utf8')) : []

export default {
  watch: [`${folder}*.json`],
  load: (): Results => ({ published: read('published.json'), traps: read('traps.json') }),
}
