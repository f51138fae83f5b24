// Bundles each package's sources to the one file that its users import: a module apiece would cost a file read apiece.
// The packages that it depends on stay imports. Types come from tsc, which runs before.
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
    const { dependencies = {} } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
    rmSync(join(folder, 'dist/index.js'), { force: true })
    return build({
      entryPoints: [join(folder, 'src/index.ts')],
      outfile: join(folder, 'dist/index.js'),
      bundle: true,
      format: 'esm',
      target: 'es2022',
      sourcemap: true,
      external: Object.keys(dependencies),
      charset: 'utf8',
      legalComments: 'none',
    })
  }),
)
