import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { pathToFileURL } from 'node:url'
import { root } from './load.mjs'
import { isDrawn, isText, share } from './mutation-sample.mjs'

/** The instrumenter that the runner itself finds mutants with; pnpm shows it to the runner only. */
async function instrumenter() {
  const ofCore = createRequire(createRequire(import.meta.url).resolve('@stryker-mutator/core'))
  const { Instrumenter } = await import(pathToFileURL(ofCore.resolve('@stryker-mutator/instrumenter')).href)
  const nothing = () => {}
  return new Instrumenter({ debug: nothing, info: nothing, warn: nothing, isDebugEnabled: () => false })
}

/** Sources of a package, `divider`, or one file of it, `divider/src/chain.ts`; from the root. */
function sourcesOf(/** @type {string} */ asked) {
  if (asked.includes('/')) return [`packages/${asked}`]
  const folder = `packages/${asked}/src`
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => `${folder}/${path.replaceAll('\\', '/')}`)
}

/**
 * Where the drawn mutants of packages stand, as patterns `file:line:column-line:column`, and of how many they were drawn.
 * Only these places are instrumented: a switch and a counter at each of ten thousand others made tests that calculate
 * take ten times as long, so that the first run of a large package never came to its end.
 *
 * @param {string[]} asked
 */
export async function drawnPlaces(asked) {
  const names = [...new Set(asked.flatMap(sourcesOf))]
  const files = names.map((name) => ({ name: root + name, mutate: true, content: readFileSync(root + name, 'utf8') }))
  const options = { ignorers: [], plugins: null, excludedMutations: [] }
  /** @type {{ mutants: import('./mutation-sample.mjs').Mutant[] }} */
  const { mutants } = await (await instrumenter()).instrument(files, options)
  const counted = mutants.filter((mutant) => !isText(mutant))
  const places = counted.filter(isDrawn).map(({ fileName, location: { start, end } }) => {
    const range = `${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`
    return `${fileName.slice(root.length)}:${range}`
  })
  // Where most are drawn, single places save nothing and take long to compare.
  return {
    places: share < 0.3 ? [...new Set(places)] : names,
    drawn: counted.filter(isDrawn).length,
    of: counted.length,
  }
}
