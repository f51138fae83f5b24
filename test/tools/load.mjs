import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

/** The repository's folder, with a slash at its end. */
export const root = fileURLToPath(new URL('../..', import.meta.url))

/**
 * Runs TypeScript of this repository on the packages' sources, as the tests and the site do.
 *
 * @param {string} contents - a module's text, its imports from the repository's root
 * @returns {Promise<any>}
 */
export async function load(contents) {
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
          onResolve({ filter: /^@ohmward\/[a-z]+$/ }, ({ path }) => ({
            path: `${root}packages/${path.replace('@ohmward/', '')}/src/index.ts`,
          })),
      },
    ],
  })
  return import(`data:text/javascript;base64,${Buffer.from(outputFiles[0]?.contents ?? []).toString('base64')}`)
}
