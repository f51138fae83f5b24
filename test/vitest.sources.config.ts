import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { CountReporter } from './tools/count-reporter.js'
import { project, sources } from './vitest.config.js'

/** All that runs on the sources as one project: each project transforms and imports the packages anew. */
const all = project('sources', Object.values(sources), { testTimeout: 180_000 })

export default defineConfig({
  ...all,
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: { ...all.test, maxWorkers: '100%', reporters: ['default', new CountReporter()] },
})
