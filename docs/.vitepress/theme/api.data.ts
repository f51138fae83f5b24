import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { shown } from '../build/sources.ts'

/** A page of the reference. */
export interface Entry {
  readonly text: string
  readonly link: string
}

export declare const data: readonly Entry[]

const file = fileURLToPath(new URL('../../api/typedoc-sidebar.json', import.meta.url))

/** The pages that typedoc has written, in the order of the layers; none before it has run. */
export default {
  watch: [file],
  load(): readonly Entry[] {
    if (!existsSync(file)) return []
    const pages: Entry[] = JSON.parse(readFileSync(file, 'utf8'))
    return pages
      .map(({ text, link }) => ({ text, link: link.replace(/\.md$/, '.html') }))
      .sort((a, b) => shown.indexOf(a.text) - shown.indexOf(b.text))
  },
}
