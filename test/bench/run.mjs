/**
 * Runs every benchmark and prints one table. Each file of `entries` runs in a process of its own, so that no entry
 * finds an engine that another has warmed or spoiled.
 *
 *     node --expose-gc test/bench/run.mjs [--json] [words of the names wanted]
 *
 * An entry is `{ name, measures, limit: { atMost } or { atLeast }, unit, run }`; `run()` gives `{ value, detail }`.
 * The unit is `×` for a ratio. Ends with 1 when a limit is missed or an entry fails.
 */
import { execFile } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'

const words = process.argv.slice(2).filter((word) => !word.startsWith('--'))
const json = process.argv.includes('--json')
const entries = fileURLToPath(new URL('entries/', import.meta.url))
const one = fileURLToPath(new URL('run-one.mjs', import.meta.url))
const files = readdirSync(entries).filter((file) => file.endsWith('.mjs'))
if (files.length === 0) throw new Error(`no benchmark in ${entries}`)

const results = []
for (const file of files) {
  const { stdout } = await promisify(execFile)(process.execPath, ['--expose-gc', one, entries + file, ...words], {
    maxBuffer: 1e8,
  })
  results.push(...JSON.parse(stdout))
}

if (json) console.log(JSON.stringify(results, undefined, 2))
else print(results)
process.exitCode = results.length > 0 && results.every(({ ok }) => ok) ? 0 : 1

function print(list) {
  const number = (x) => (Math.abs(x) >= 100 ? x.toFixed(0) : x.toPrecision(3))
  const rows = list.map(({ name, value, unit, limit, ok, measures, detail, error }) => [
    ok ? 'ok' : 'MISSED',
    name,
    value === undefined ? '-' : `${number(value)} ${unit}`,
    limit.atMost === undefined ? `>= ${limit.atLeast}` : `<= ${limit.atMost}`,
    error ?? [measures, detail].filter(Boolean).join('; '),
  ])
  const widths = [0, 1, 2, 3].map((k) => Math.max(...rows.map((row) => row[k].length)))
  for (const row of rows) console.log(row.map((cell, k) => (k < 4 ? cell.padEnd(widths[k]) : cell)).join('  '))
  console.log(`${list.filter(({ ok }) => ok).length} of ${list.length} within their limits, Node ${process.version}`)
}
