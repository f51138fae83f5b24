import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import { build } from 'esbuild'
import { root } from '../tools/load.mjs'

const engines = ['quantity', 'budget', 'adc']

/** @param {string} folder - from the root */
const filesIn = (folder) =>
  existsSync(`${root}${folder}`)
    ? readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
        .map((path) => `${folder}/${path.replaceAll('\\', '/')}`)
        .filter((path) => path.endsWith('.ts'))
        .sort()
    : []

/** The tests of packages: their own, and those laws and random designs that are named after them or ask them. @param {string[]} packages */
function testsOf(packages) {
  const own = packages.flatMap((name) => filesIn(`packages/${name}/test`))
  const asks = new RegExp(`from '@ohmward/(${packages.join('|')})(/\\w+)?'`)
  const named = new RegExp(`/(${packages.join('|')})[-\\w]*\\.test\\.ts$`)
  const others = [...filesIn('test/laws'), ...filesIn('test/sceptic')].filter((path) => {
    const text = readFileSync(root + path, 'utf8')
    // What finds its modules by Vite's own glob can't be one script with the others.
    return (named.test(path) || asks.test(text)) && !/import\.meta\.glob\b/.test(text)
  })
  return [...own, ...others].filter((path) => path.endsWith('.test.ts'))
}

/** A module that gives each file of tests by its name, to be loaded when it is asked for. @param {string[]} packages */
function entryOf(packages) {
  const required = (/** @type {string} */ path) => `require('./${path}')`
  const published = ['by-hand', 'checks', 'traps']
    .flatMap((folder) => filesIn(`test/published/${folder}`))
    .filter((path) => packages.some((name) => new RegExp(`/${name}(-[\\w-]+)?\\.ts$`).test(path)))
  const hostile = []
  if (packages.some((name) => engines.includes(name))) hostile.push('...calls.engines().callsOfEngines')
  if (packages.some((name) => !engines.includes(name))) hostile.push('...calls.blocks().callsOfBlocks')
  const files = testsOf(packages).map((path) => `  '${path}': () => ${required(path)},`)
  return `import './test/tools/seed.js'
const calls = {
  engines: () => ${required('test/hostile/calls-of-engines.ts')},
  blocks: () => ${required('test/hostile/calls-of-blocks.ts')},
}
export const files = {
  'test/published': () =>
    ${required('test/published/of-packages.ts')}.holdPublished([${published.map(required).join(', ')}]),
  'test/hostile': () =>
    ${required('test/hostile/of-packages.ts')}.holdCalls([${hostile.join(', ')}], ${JSON.stringify(packages)}),
${files.join('\n')}
}
`
}

/**
 * The tests of packages and all sources that they ask, some of them instrumented, as one script: a function of `require`,
 * `module` and `exports`. Each call of it begins with modules that have done nothing yet.
 *
 * @param {string[]} packages
 * @param {ReadonlyMap<string, string>} sources - contents by path, in the place of those on disk
 */
export async function bundled(packages, sources) {
  const { outputFiles } = await build({
    stdin: { contents: entryOf(packages), resolveDir: root, loader: 'ts' },
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    packages: 'external',
    treeShaking: false,
    logLevel: 'error',
    plugins: [
      {
        name: 'sources',
        setup: ({ onResolve, onLoad }) => {
          onResolve({ filter: /^@ohmward\/[a-z/]+$/ }, ({ path }) => {
            const [, name, part] = path.split('/')
            return { path: `${root}packages/${name}/src/${part === undefined ? '' : `${part}/`}index.ts` }
          })
          onLoad({ filter: /\.ts$/ }, ({ path }) => {
            const contents = sources.get(path) ?? readFileSync(path, 'utf8')
            const url = JSON.stringify(pathToFileURL(path).href)
            return { contents: contents.replaceAll('import.meta.url', url), loader: 'ts' }
          })
        },
      },
    ],
  })
  return {
    code: `(function (require, module, exports) {${outputFiles[0]?.text}\n})`,
    files: ['test/published', 'test/hostile', ...testsOf(packages)],
  }
}
