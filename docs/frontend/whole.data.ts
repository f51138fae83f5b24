import type { DesignChanges } from '@ohmward/frontend'
import { load, run, watch } from '../.vitepress/build/sources.ts'
import type { Whole } from './answer.ts'

/** The demo design as text, its whole answer, and what would help. */
export interface Built extends Whole {
  readonly text: string
  readonly changes: DesignChanges
}

export declare const data: Built

const short = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value, (_, item) => (typeof item === 'number' ? Number(item.toPrecision(6)) : item)))

export default {
  watch,
  async load(): Promise<Built> {
    const { designChanges, exampleDesign, writeDesign } = await run<typeof import('@ohmward/frontend')>(
      "export { designChanges, exampleDesign, writeDesign } from '@ohmward/frontend'",
    )
    const { wholeOf } = await load<typeof import('./answer.ts')>('frontend/answer.ts')
    const changes = short(designChanges(exampleDesign))
    return { text: writeDesign(exampleDesign), changes, ...short(await wholeOf(exampleDesign)) }
  },
}
