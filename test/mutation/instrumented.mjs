import { readdirSync, readFileSync } from 'node:fs'
import { Instrumenter } from '@stryker-mutator/instrumenter'
import { root } from '../tools/load.mjs'
import { drawn, isText } from './sample.mjs'

/** @typedef {import('./sample.mjs').Mutant} Mutant */

const nothing = () => {}
const quiet = { debug: nothing, info: nothing, warn: nothing, isDebugEnabled: () => false }

/**
 * Without its header: who runs the code gives it `stryMutAct_9fa48` and `stryCov_9fa48`.
 *
 * @param {object[]} files
 * @returns {Promise<{ files: readonly { name: string, content: string }[], mutants: readonly Mutant[] }>}
 */
const instrument = (files) =>
  new Instrumenter(/** @type {any} */ (quiet)).instrument(
    /** @type {any} */ (files),
    /** @type {any} */ ({ ignorers: [], plugins: null, excludedMutations: [], noHeader: true }),
  )

/** Sources of a package, `divider`, or one file of it, `divider/src/chain.ts`; from the root. @param {string} asked */
function sourcesOf(asked) {
  if (asked.includes('/')) return [`packages/${asked}`]
  const folder = `packages/${asked}/src`
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => `${folder}/${path.replaceAll('\\', '/')}`)
}

/** @param {Mutant} mutant */
const nameOf = ({ fileName, location: { start, end }, replacement }) =>
  [fileName, start.line, start.column, end.line, end.column, replacement].join(' ')

/**
 * The mutants of packages that are tried, and the sources with a switch at each of their places. Only these are
 * instrumented: a switch and a counter at each of ten thousand others made tests that calculate take ten times as long.
 *
 * @param {string[]} asked - packages, or files of them
 * @param {(mutant: Mutant) => boolean} [isWanted] - those to try; without it the sample is drawn
 */
export async function instrumented(asked, isWanted) {
  const paths = [...new Set(asked.flatMap(sourcesOf))].map((path) => root + path)
  const contents = new Map(paths.map((path) => [path, readFileSync(path, 'utf8')]))
  const all = await instrument(paths.map((name) => ({ name, mutate: true, content: contents.get(name) })))
  const counted = all.mutants.filter((mutant) => !isText(mutant))
  const tried = isWanted ? counted.filter(isWanted) : drawn(counted)
  const names = new Set(tried.map(nameOf))
  const { files, mutants } = await instrument(
    [...new Set(tried.map(({ fileName }) => fileName))].map((name) => ({
      name,
      mutate: tried.filter(({ fileName }) => fileName === name).map(({ location }) => location),
      content: contents.get(name),
    })),
  )
  return {
    sources: new Map(files.map(({ name, content }) => [name, content])),
    mutants: mutants.filter((mutant) => names.has(nameOf(mutant))),
    of: counted.length,
  }
}
