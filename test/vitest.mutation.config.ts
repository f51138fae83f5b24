import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { importsAsConstants } from './tools/imports-as-constants.js'
import { alias } from './vitest.config.js'

const root = fileURLToPath(new URL('..', import.meta.url))
const names = [...new Set((process.env['OHMWARD_MUTATE'] ?? '').split(',').map((name) => name.split('/')[0]!))]

/** Under mutation the unit tests, laws and random designs of the packages asked for run, and the published values and cases by hand. */
export default defineConfig({
  root,
  resolve: { alias },
  plugins: [importsAsConstants()],
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
    testTimeout: 900_000,
  },
})
