/**
 * Two builds of the packages to hold against each other: this checkout's, and that of an earlier commit. Both are
 * bundled from their sources by the same bundler to one file, so that nothing but the code differs.
 */
import { execFileSync } from 'node:child_process'
import { existsSync, mkdirSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const root = fileURLToPath(new URL('../../', import.meta.url))
const cache = `${root}node_modules/.cache/ohmward-bench/`

/** The commit before the second cut: what was in place when each symbol was still written by hand. */
export const before = '27e48cf'

/** The packages that the workloads use; those that a build doesn't have yet are left out. */
const names = ['adc', 'divider', 'hall', 'mosfet', 'decoupling', 'supply']

/** Bundles these packages of a folder to one file: each under its name, and the waveform by itself. */
async function bundle(folder, outfile) {
  const there = names.filter((name) => existsSync(`${folder}${name}/src/index.ts`))
  const own = there.map((name) => `export * as ${name} from '${folder}${name}/src/index.ts'`)
  // What the blocks call, where the package's own entry looks at its arguments first.
  const waveform = ['inside.ts', 'index.ts'].map((file) => `${folder}decoupling/src/waveform/${file}`).find(existsSync)
  if (waveform) own.push(`export * as waveform from '${waveform}'`)
  await build({
    stdin: { contents: own.join('\n'), resolveDir: root },
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'es2022',
    charset: 'utf8',
    logLevel: 'error',
    plugins: [{ name: 'sources', setup: (it) => resolvePackages(it, folder) }],
  })
  return outfile
}

/** `@ohmward/NAME` and `@ohmward/NAME/PART` are sources of that folder, whatever is installed. */
function resolvePackages({ onResolve }, folder) {
  onResolve({ filter: /^@ohmward\// }, ({ path }) => {
    const [, name, part] = path.split('/')
    const src = `${folder}${name}/src/`
    const candidates = part === undefined ? ['index.ts'] : [`${part}.ts`, `${part}/index.ts`]
    const found = candidates.map((one) => src + one).find((one) => existsSync(one))
    return found === undefined ? { errors: [{ text: `${path} is not in ${src}` }] } : { path: found }
  })
}

/** This checkout's packages as one file, made anew. */
export const buildNow = () => bundle(`${root}packages/`, `${cache}now.mjs`)

/** Those of a commit as one file; kept, since a commit doesn't change. @param {string} [revision] */
export async function buildOf(revision = before) {
  const commit = git('rev-parse', '--verify', `${revision}^{commit}`).toString().trim()
  const outfile = `${cache}${commit}.mjs`
  if (existsSync(outfile)) return outfile
  const folder = `${cache}${commit}/`
  rmSync(folder, { recursive: true, force: true })
  mkdirSync(folder, { recursive: true })
  const archive = git('archive', '--format=tar', commit, 'packages')
  execFileSync('tar', ['-x', '-C', folder], { input: archive })
  return bundle(`${folder}packages/`, outfile)
}

function git(...words) {
  try {
    return execFileSync('git', words, { cwd: root, maxBuffer: 1e9, stdio: ['ignore', 'pipe', 'pipe'] })
  } catch (error) {
    throw new Error(`git ${words.join(' ')} failed: a clone with its history is needed. ${error.stderr ?? error}`)
  }
}
