// Mutation testing of one package by its own unit tests: `pnpm mutation divider`. A comma separates several.
import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { drawnPlaces } from './tools/mutation-drawn.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const all = readdirSync(`${root}packages`, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
const asked = (process.env['OHMWARD_MUTATE'] ?? '').split(',').filter((name) => name !== '')
if (asked.length === 0 || asked.some((name) => !all.includes(name.split('/')[0] ?? ''))) {
  throw new Error(`pnpm mutation NAME: NAME is one or more of ${all.join(', ')}, with commas`)
}

/** `divider` is the whole package, `divider/src/chain.ts` one file of it. */
const { places: mutate, drawn, of } = await drawnPlaces(asked)
console.log(`${drawn} mutants drawn of ${of}`)
const names = [...new Set(asked.map((name) => name.split('/')[0]))]

/** @type {import('@stryker-mutator/api/core').PartialStrykerOptions} */
export default {
  // Under pnpm the runner isn't found by itself.
  plugins: ['@stryker-mutator/vitest-runner', './test/tools/mutation-sample.mjs'],
  // Leaves texts out, and all but a share of the others where OHMWARD_MUTATION_SAMPLE asks for one.
  checkers: ['sample'],
  testRunner: 'vitest',
  vitest: { configFile: 'test/vitest.mutation.config.ts', related: false },
  mutate,
  coverageAnalysis: 'perTest',
  // What runs as a module is loaded asks for every test and a new process: OHMWARD_MUTATION_STATIC=0 leaves it out.
  ignoreStatic: process.env['OHMWARD_MUTATION_STATIC'] === '0',
  // A busy machine is no killed mutant: time out only far beyond what the tests took.
  timeoutFactor: 8,
  timeoutMS: 30_000,
  reporters: ['clear-text', 'progress-append-only', 'html', 'json'],
  clearTextReporter: { allowColor: false, reportTests: false, logTests: false },
  htmlReporter: { fileName: `reports/mutation/${names.join('+')}.html` },
  jsonReporter: { fileName: `reports/mutation/${names.join('+')}.json` },
  thresholds: { high: 95, low: 90, break: null },
  ignorePatterns: ['docs/.vitepress/dist', 'docs/.vitepress/cache', '**/dist', 'reports'],
  dryRunTimeoutMinutes: 30,
  concurrency: Number(process.env['OHMWARD_MUTATION_CONCURRENCY'] ?? 2),
  disableTypeChecks: false,
}
