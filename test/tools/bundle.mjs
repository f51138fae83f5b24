// Bundles each package's sources to the files that its users import, one for each entry of its manifest, what two of them
// share beside them: a module apiece would cost a file read apiece. The packages that it depends on stay imports. Types come from tsc, which runs before.
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const packages = fileURLToPath(new URL('../../packages/', import.meta.url))
const names = readdirSync(packages).filter((name) => existsSync(join(packages, name, 'src/index.ts')))
if (names.length === 0) throw new Error(`no package in ${packages}`)

await Promise.all(
  names.map((name) => {
    const folder = join(packages, name)
    const { dependencies = {}, exports } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
    // './formulas' is dist/formulas/index.js, made of src/formulas/index.ts.
    const entries = Object.values(exports)
      .filter((entry) => typeof entry === 'object')
      .map(({ default: path }) => path.replace('./dist/', 'src/').replace(/\.js$/, '.ts'))
    const dist = join(folder, 'dist')
    for (const name of existsSync(dist) ? readdirSync(dist, { recursive: true, encoding: 'utf8' }) : []) {
      if (/\.js(\.map)?$/.test(name)) rmSync(join(dist, name))
    }
    return build({
      entryPoints: entries.map((entry) => join(folder, entry)),
      outdir: dist,
      outbase: join(folder, 'src'),
      chunkNames: 'shared-[hash]',
      splitting: true,
      bundle: true,
      format: 'esm',
      target: 'es2022',
      sourcemap: true,
      external: Object.keys(dependencies).flatMap((name) => [name, `${name}/*`]),
      charset: 'utf8',
      legalComments: 'none',
    })
  }),
)
