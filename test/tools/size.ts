import { gzipSync } from 'node:zlib'
import { buildSync } from 'esbuild'

export interface Bundle {
  readonly text: string
  /** Bytes as a server sends them. */
  readonly gzipped: number
}

/** What a bundler makes of a module's text, resolved from a folder: minified, unused code dropped. */
export function bundle(contents: string, resolveDir: string): Bundle {
  const { outputFiles, warnings } = buildSync({
    stdin: { contents, resolveDir },
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
  const text = outputFiles[0]!.text
  return { text, gzipped: gzipSync(text, { level: 9 }).length }
}
