import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** An entry of the reference's contents, as typedoc writes it. */
export interface Entry {
  readonly text: string
  readonly link?: string
  readonly items?: readonly Entry[]
}

export declare const data: readonly Entry[]

const file = fileURLToPath(new URL('../../api/typedoc-sidebar.json', import.meta.url))

const page = ({ text, link, items }: Entry): Entry => ({
  text,
  ...(link && { link: link.replace(/\.md$/, '.html').replace(/index\.html$/, '') }),
  ...(items && { items: items.map(page) }),
})

export default {
  watch: [file],
  load: (): readonly Entry[] => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).map(page) : []),
}
