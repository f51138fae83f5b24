import { load, run, watch } from '../.vitepress/build/sources.ts'
import type { Whole } from './answer.ts'

/** The demo design as text, and its whole answer. */
export interface Built extends Whole {
  readonly text: string
}

export declare const data: Built

const short = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value, (_, item) => (typeof item === 'number' ? Number(item.toPrecision(6)) : item)))

export default {
  watch,
  async load(): Promise<Built> {
    const { exampleDesign, writeDesign } = await run<typeof import('@ohmward/frontend')>(
      "export { exampleDesign, writeDesign } from '@ohmward/frontend'",
    )
    const { wholeOf } = await load<typeof import('./answer.ts')>('frontend/answer.ts')
    return { text: writeDesign(exampleDesign), ...short(await wholeOf(exampleDesign)) }
  },
}
