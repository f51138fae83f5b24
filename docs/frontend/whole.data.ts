import type { BoardSimulation, DesignChanges } from '@ohmward/frontend'
import { load, run, watch } from '../.vitepress/build/sources.ts'
import type { Whole } from './answer.ts'

/** The demo design as text and the others to start from, its whole answer, what would help, and how many boards work. */
export interface Built extends Whole {
  readonly text: string
  /** Texts of all designs to start from, by the short name that the command has for them. */
  readonly starts: Readonly<Record<string, string>>
  readonly changes: DesignChanges
  readonly boards: BoardSimulation
}

export declare const data: Built

const short = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value, (_, item) => (typeof item === 'number' ? Number(item.toPrecision(6)) : item)))

export default {
  watch,
  async load(): Promise<Built> {
    const { designChanges, exampleDesign, exampleDesigns, simulateBoards, writeDesign } = await run<
      typeof import('@ohmward/frontend')
    >("export { designChanges, exampleDesign, exampleDesigns, simulateBoards, writeDesign } from '@ohmward/frontend'")
    const { wholeOf } = await load<typeof import('./answer.ts')>('frontend/answer.ts')
    const changes = short(designChanges(exampleDesign))
    const boards = short(simulateBoards(exampleDesign))
    const starts = Object.fromEntries(Object.entries(exampleDesigns).map(([name, one]) => [name, writeDesign(one)]))
    return { text: writeDesign(exampleDesign), starts, changes, boards, ...short(await wholeOf(exampleDesign)) }
  },
}
