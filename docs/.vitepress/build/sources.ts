import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { once } from './once.ts'

const layers = ['quantity', 'budget', 'adc', 'supply', 'divider', 'hall', 'mosfet', 'decoupling', 'frontend']

export const root = fileURLToPath(new URL('../../..', import.meta.url))

/** Packages that the site shows: those that it depends on, in the order of the layers. */
export const shown = Object.keys(JSON.parse(readFileSync(`${root}docs/package.json`, 'utf8')).dependencies)
  .map((name) => name.replace('@ohmward/', ''))
  .sort((a, b) => layers.indexOf(a) - layers.indexOf(b))

/** What a data loader watches: a package that is built anew shows at once. A build watches nothing, and saves the search. */
export const watch =
  process.env['NODE_ENV'] === 'production' ? [] : [`${root}packages/*/dist/index.js`, `${root}docs/*/*.ts`]

/** Runs a module of the site, by its path from `docs`: `divider/block.ts`. */
export const load = <M>(path: string): Promise<M> => run(`export * from './${path}'`)

/**
 * Runs a piece of TypeScript on the built packages, as their users do; paths are from `docs`. VitePress runs data
 * loaders outside its own module graph.
 */
export const run = <M>(contents: string): Promise<M> => bundled(contents, `${root}docs`)

/** The same on the packages' sources, where formulas stand in files by topic; paths are from the root. */
export const runSources = <M>(contents: string): Promise<M> => bundled(contents, root, sources)

/** The sources of each entry: of `@ohmward/adc/formulas`, and after those of `@ohmward/adc`, whose name theirs begin with. */
const sources = Object.fromEntries(
  shown.flatMap((name) => {
    const manifest = JSON.parse(readFileSync(`${root}packages/${name}/package.json`, 'utf8'))
    const entries = Object.keys(manifest.exports).filter((path) => /^\.(\/[a-z]+)?$/.test(path))
    const longest = entries.sort((a, b) => b.length - a.length)
    return longest.map((path) => [
      `@ohmward/${name}${path.slice(1)}`,
      `${root}packages/${name}/src${path.slice(1)}/index.ts`,
    ])
  }),
)

const bundled = <M>(contents: string, resolveDir: string, alias: Record<string, string> = {}): Promise<M> =>
  once(`${resolveDir}: ${contents}`, () => runBundled<M>(contents, resolveDir, alias))

async function runBundled<M>(contents: string, resolveDir: string, alias: Record<string, string>): Promise<M> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir, loader: 'ts' },
    alias,
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'silent',
  })
  const code = outputFiles[0]!.contents
  return import(`data:text/javascript;base64,${Buffer.from(code).toString('base64')}`)
}
