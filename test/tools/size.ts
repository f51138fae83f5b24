import { gzipSync } from 'node:zlib'
import { build, type Plugin } from 'esbuild'

export interface Bundle {
  readonly text: string
  /** Bytes as a server sends them. */
  readonly gzipped: number
}

/** What a bundler makes of a module's text, resolved from a folder: minified, unused code dropped. */
export async function bundle(contents: string, resolveDir: string): Promise<Bundle> {
  const [only] = await bundleEach([contents], resolveDir)
  return only!
}

/** The same of many modules, each on its own, in the order given; what they share is read once. */
export async function bundleEach(modules: readonly string[], resolveDir: string): Promise<Bundle[]> {
  const given: Plugin = {
    name: 'given modules',
    setup(it) {
      it.onResolve({ filter: /^given:\d+$/ }, ({ path }) => ({ path: path.slice(6), namespace: 'given' }))
      it.onLoad({ filter: /.*/, namespace: 'given' }, ({ path }) => ({ contents: modules[Number(path)]!, resolveDir }))
    },
  }
  const { outputFiles, warnings } = await build({
    entryPoints: modules.map((_, i) => ({ in: `given:${i}`, out: `${i}` })),
    outdir: '/',
    plugins: [given],
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
    logLevel: 'silent',
  })
  const serious = warnings.filter(({ id }) => id !== 'ignored-bare-import')
  if (serious.length > 0) throw new Error(serious.map(({ text }) => text).join('\n'))
  const texts = new Map(outputFiles.map(({ path, text }) => [path, text]))
  return modules.map((_, i) => {
    const text = texts.get(`/${i}.js`)
    if (text === undefined) throw new Error(`nothing came of the module "${modules[i]}"`)
    return { text, gzipped: gzipSync(text, { level: 9 }).length }
  })
}
