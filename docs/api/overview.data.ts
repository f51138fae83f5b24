import { declarations } from '../.vitepress/build/reference/declarations.ts'
import { watch } from '../.vitepress/build/sources.ts'

interface Overview {
  /** As it is imported: `@ohmward/adc`. */
  readonly name: string
  readonly page: string
  readonly description: string
  readonly functions: readonly { readonly name: string; readonly says: string }[]
}

export declare const data: readonly Overview[]

/** The first sentence of a doc comment, without its marks; what introduces a list ends it too, the dot of an initial doesn't. */
const firstSentence = (words: string): string =>
  words
    .replace(/\s+/g, ' ')
    .replace(/\{@link (\w+)\s*\}|`([^`]+)`/g, '$1$2')
    .split(/(?<=(?<!\b[A-Z])\.) |(?<=:) (?=- )/)[0]!
    .replace(/:$/, '.')

export default {
  watch,
  load: (): Overview[] =>
    [...declarations()].map(([{ name, page, description }, exported]) => ({
      name,
      page,
      description,
      functions: exported
        .filter(({ kind }) => kind === 'function')
        .map((one) => ({ name: one.name, says: firstSentence(one.summary) })),
    })),
}
