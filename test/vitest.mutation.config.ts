import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { CheapestFirst } from './tools/cheapest-first.js'
import { importsAsConstants } from './tools/imports-as-constants.js'
import { alias } from './vitest.config.js'

const root = fileURLToPath(new URL('..', import.meta.url))
const names = [...new Set((process.env['OHMWARD_MUTATE'] ?? '').split(',').map((name) => name.split('/')[0]!))]

/** Under mutation the unit tests, laws and random designs of the packages asked for run, and the published values and cases by hand. */
export default defineConfig({
  root,
  resolve: { alias },
  plugins: [importsAsConstants()],
  // What files take is remembered here, apart from other runs: the order goes by it.
  cacheDir: `${root}reports/vite-mutation`,
  test: {
    root,
    include: [
      ...names.flatMap((name) => [
        `packages/${name}/test/**/*.test.ts`,
        `test/laws/${name}*.test.ts`,
        `test/sceptic/${name}.test.ts`,
      ]),
      'test/published/of-package.spec.ts',
      'test/hostile/of-package.spec.ts',
    ],
    setupFiles: ['test/tools/seed.ts'],
    // One process reads the sources once for all files of a run, and the next mutant gets a new one.
    isolate: false,
    sequence: { sequencer: CheapestFirst },
    testTimeout: 900_000,
  },
})
