import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { build } from 'esbuild'
import { median } from '../measure.mjs'

const packages = fileURLToPath(new URL('../../../packages/', import.meta.url))
const index = (name) => `${packages}${name}/dist/index.js`
const formulas = (name) => `${packages}${name}/dist/formulas/index.js`

/** Milliseconds that a fresh process takes for an import, median of several. */
function importTime(target) {
  const code = `const t = performance.now(); await import(${JSON.stringify(target)}); console.log(performance.now() - t)`
  const run = () => Number(execFileSync(process.execPath, ['--input-type=module', '-e', code], { encoding: 'utf8' }))
  return median([1, 2, 3, 4, 5].map(run))
}

/** Bytes of a minified bundle, gzipped. */
async function weight(code) {
  const { outputFiles } = await build({
    stdin: { contents: code, resolveDir: fileURLToPath(new URL('.', import.meta.url)) },
    bundle: true,
    minify: true,
    format: 'esm',
    write: false,
  })
  return gzipSync(outputFiles[0].contents, { level: 9 }).length
}

const all = ['quantity', 'budget', 'adc', 'divider', 'hall', 'mosfet', 'decoupling', 'supply', 'frontend']
const from = (names, name) => `export { ${names} } from ${JSON.stringify(index(name))}\n`
const kilobytes = async (code) => ({ value: (await weight(code)) / 1000 })

/** Each block's check, and what it may weigh in kB. */
const checks = [
  ['checkDivider', 'divider', 40],
  ['checkHall', 'hall', 40],
  ['checkMosfet', 'mosfet', 43],
  ['checkDecoupling', 'decoupling', 60],
]

export const entries = [
  {
    name: 'import of divider',
    measures: "time of a first import in a fresh process, mathjs' over ours",
    limit: { atLeast: 30 },
    unit: '×',
    run: () => {
      const [ours, theirs] = [importTime(index('divider')), importTime('mathjs')]
      return { value: theirs / ours, detail: `${ours.toFixed(1)} ms, mathjs ${theirs.toFixed(0)} ms` }
    },
  },
  {
    name: 'size of everything',
    measures: 'all packages in one bundle, minified and gzipped, over mathjs',
    limit: { atMost: 0.5 },
    unit: '×',
    run: async () => {
      const present = []
      for (const name of all) {
        try {
          present.push([name, await weight(`export * from ${JSON.stringify(index(name))}`)])
        } catch {
          // A package that isn't built is named by its absence in the detail.
        }
      }
      const ours = await weight(
        present.map(([name]) => `export * as ${name} from ${JSON.stringify(index(name))}\n`).join(''),
      )
      const theirs = await weight("export * from 'mathjs'")
      const list = present.map(([name, bytes]) => `${name} ${(bytes / 1000).toFixed(1)}`).join(', ')
      return {
        value: ours / theirs,
        detail: `${list}; together ${(ours / 1000).toFixed(1)} kB, mathjs ${(theirs / 1000).toFixed(0)} kB`,
      }
    },
  },
  {
    name: 'size of simulation',
    measures: 'what simulate adds to propagate and extremes, minified and gzipped',
    limit: { atMost: 6.5 },
    unit: 'kB',
    run: async () => {
      const [less, more] = ['propagate, extremes', 'propagate, extremes, simulate']
      return { value: ((await weight(from(more, 'budget'))) - (await weight(from(less, 'budget')))) / 1000 }
    },
  },
  {
    name: 'size of one formula',
    measures: "the divider's sense voltage alone, minified and gzipped",
    limit: { atMost: 1 },
    unit: 'kB',
    run: () => kilobytes(`export { senseVoltage } from ${JSON.stringify(formulas('divider'))}`),
  },
  {
    name: "size of a block's formulas",
    measures: "the divider's formulas alone, minified and gzipped",
    limit: { atMost: 5 },
    unit: 'kB',
    run: () => kilobytes(`export * from ${JSON.stringify(formulas('divider'))}`),
  },
  ...checks.map(([check, name, atMost]) => ({
    name: `size of ${check}`,
    measures: 'the check with all it needs, minified and gzipped',
    limit: { atMost },
    unit: 'kB',
    run: () => kilobytes(from(check, name)),
  })),
]
