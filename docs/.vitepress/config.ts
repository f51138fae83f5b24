import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitepress'
import { contents } from './build/contents.ts'
import { highlight } from './build/highlight.ts'
import { strict } from './build/policy.ts'
import { writeServiceWorker } from './build/service-worker.ts'

const base = process.env['OHMWARD_BASE'] ?? '/'

export default defineConfig({
  title: 'Ohmward',
  titleTemplate: ':title · Ohmward',
  description: 'Sizes the analog front end of small battery-powered devices, with tolerances.',
  lang: 'en',
  base,
  srcExclude: ['README.md'],
  // The theme keeps the colour scheme itself, with a script of its own and nothing inline.
  appearance: false,
  metaChunk: true,
  contentProps: { class: 'prose' },
  head: [
    ['meta', { name: 'color-scheme', content: 'light dark' }],
    ['link', { rel: 'icon', type: 'image/svg+xml', href: `${base}mark.svg` }],
    ['script', { src: `${base}scheme.js` }],
  ],
  markdown: {
    highlight,
    headers: { level: [2, 3] },
    anchor: { tabIndex: false },
    config: ({ renderer: { rules } }) => {
      // The reference's tables stay plain HTML, so that its long pages cost the compiler nothing.
      const isPlain = ({ relativePath = '' }) => relativePath.startsWith('api/')
      rules['table_open'] = (...args) =>
        (isPlain(args[3]) ? '' : '<ScrollBox class="wide" label="Table">') + '<table>\n'
      rules['table_close'] = (...args) => '</table>' + (isPlain(args[3]) ? '' : '</ScrollBox>') + '\n'
    },
  },
  transformPageData: contents,
  transformHtml: strict,
  buildEnd: ({ outDir }) => writeServiceWorker(outDir, base),
  vite: {
    worker: { format: 'es' },
    // The packages' own target: an older one turns private fields into weak maps, which made a check twice as slow.
    build: { target: 'es2022', reportCompressedSize: false },
    server: { fs: { allow: [fileURLToPath(new URL('../..', import.meta.url))] } },
  },
})
