import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const layers = ['quantity', 'budget', 'adc', 'divider', 'hall', 'mosfet', 'decoupling', 'frontend']

export const root = fileURLToPath(new URL('../../..', import.meta.url))

/** Packages that the site shows: those that it depends on, in the order of the layers. */
export const shown = Object.keys(JSON.parse(readFileSync(`${root}docs/package.json`, 'utf8')).dependencies)
  .map((name) => name.replace('@ohmward/', ''))
  .sort((a, b) => layers.indexOf(a) - layers.indexOf(b))

/** The site runs on the packages' sources, as the tests do, so that it never shows stale built code. */
export const alias = [{ find: /^@ohmward\/([a-z]+)$/, replacement: `${root}packages/$1/src/index.ts` }]

/** What a data loader watches: an edit in a package shows at once. A build watches nothing, and saves the search. */
export const watch =
  process.env['NODE_ENV'] === 'production' ? [] : [`${root}packages/*/src/**/*.ts`, `${root}docs/blocks/**/*.ts`]

/** Runs a module of this repository, by its path from the root: `packages/divider/src/index.ts`. */
export const load = <M>(path: string): Promise<M> => run(`export * from './${path}'`)

/**
 * Runs a piece of TypeScript on the packages' sources, its imports from the repository's root. VitePress runs data loaders outside its own module
 * graph, where the alias doesn't reach.
 */
export async function run<M>(contents: string): Promise<M> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: root, loader: 'ts' },
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'silent',
    plugins: [
      {
        name: 'sources',
        setup: ({ onResolve }) =>
          onResolve({ filter: /^@ohmward\// }, ({ path: name }) => ({
            path: name.replace(alias[0]!.find, alias[0]!.replacement),
          })),
      },
    ],
  })
  const code = outputFiles[0]!.contents
  return import(`data:text/javascript;base64,${Buffer.from(code).toString('base64')}`)
}
