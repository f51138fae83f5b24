import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { CountReporter } from './tools/count-reporter.js'
import { importsAsConstants } from './tools/imports-as-constants.js'

const root = fileURLToPath(new URL('..', import.meta.url))

/** Tests run on the packages' sources, not on their built code, so that every edit and every mutant is seen. */
export const alias = [
  { find: /^@ohmward\/([a-z]+)$/, replacement: `${root}packages/$1/src/index.ts` },
  { find: /^@ohmward\/([a-z]+)\/([a-z]+)$/, replacement: `${root}packages/$1/src/$2/index.ts` },
]

/** What runs on the sources and needs no build, by the name of its project. */
export const sources = {
  unit: 'packages/*/test/**/*.test.ts',
  laws: 'test/laws/**/*.test.ts',
  sceptic: 'test/sceptic/**/*.test.ts',
  frozen: 'test/frozen/**/*.test.ts',
  hostile: 'test/hostile/**/*.test.ts',
  published: 'test/published/**/*.test.ts',
}

export const project = (name: string, include: string[], more: object = {}) => ({
  resolve: { alias },
  plugins: [importsAsConstants()],
  test: { name, root, include, setupFiles: ['test/tools/seed.ts'], isolate: false, ...more },
})

export default defineConfig({
  root,
  test: {
    root,
    // Vitest leaves one core to its main process, which idles while tests run: on two cores that would be half.
    maxWorkers: '100%',
    reporters: ['default', new CountReporter()],
    projects: [
      ...Object.entries(sources).map(([name, include]) => project(name, [include], { testTimeout: 180_000 })),
      project('workspace', ['test/workspace/**/*.test.ts'], {
        globalSetup: 'test/workspace/setup.ts',
        testTimeout: 300_000,
        hookTimeout: 300_000,
      }),
      project('site', ['test/site/**/*.test.ts'], {
        testTimeout: 120_000,
        hookTimeout: 300_000,
        // Browsers want the machine to themselves: after all others, and two at a time.
        maxWorkers: 2,
        sequence: { groupOrder: 1 },
      }),
    ],
  },
})
