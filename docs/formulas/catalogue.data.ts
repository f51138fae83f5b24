import { type Chapter, catalogue, type Entry } from '../.vitepress/build/catalogue.ts'
import { usesOf } from '../.vitepress/build/places.ts'
import { watch } from '../.vitepress/build/sources.ts'

export declare const data: readonly Chapter[]

const worked = ['divider', 'hall', 'mosfet', 'decoupling']

export default {
  watch,
  async load(): Promise<Chapter[]> {
    const uses = new Map<string, Entry['usedAt'][number][]>()
    for (const [id, name, path] of (await Promise.all(worked.map(usesOf))).flat()) {
      uses.set(id, [...(uses.get(id) ?? []), [name, path]])
    }
    return catalogue((id) => uses.get(id) ?? [])
  },
}
