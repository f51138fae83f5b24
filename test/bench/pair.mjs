/**
 * Holds this checkout against an earlier commit, workload by workload: both builds call about in one process, so that
 * whatever else the machine does falls on both; in several processes, since each compiles as luck will have it, and in
 * half of them the other way about, since what is compiled first may run a tenth slower.
 *
 *     node test/bench/pair.mjs [--processes=6] [REVISION] [words of the names wanted]
 */
import { execFileSync } from 'node:child_process'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { before, buildNow, buildOf } from './builds.mjs'
import { median } from './measure.mjs'
import { workloads } from './workloads.mjs'

const timePair = fileURLToPath(new URL('time-pair.mjs', import.meta.url))

/** This checkout's build and that of a commit. @param {string} [revision] */
export const buildsOf = async (revision = before) => ({ past: await buildOf(revision), now: await buildNow() })

/**
 * A workload's time now over that in the past: the median over some processes in each order, and the middle of the two;
 * and how it came about, in words.
 *
 * @param {string} name
 * @param {{ past: string, now: string }} builds
 */
export function pair(name, builds, processes = 6) {
  const times = Array.from({ length: processes }, (_, k) => {
    const order = k % 2 === 0 ? ['past', 'now'] : ['now', 'past']
    const files = order.map((which) => pathToFileURL(builds[which]).href)
    const out = JSON.parse(execFileSync(process.execPath, [timePair, name, ...files], { encoding: 'utf8' }))
    return { [order[0]]: out[0], [order[1]]: out[1] }
  })
  const ratios = times.map(({ past, now }) => now / past)
  const [one, other] = [0, 1].map((order) => median(ratios.filter((_, k) => k % 2 === order)))
  const [past, now] = ['past', 'now'].map((which) => median(times.map((it) => it[which])).toPrecision(3))
  const [least, most] = [Math.min(...ratios), Math.max(...ratios)].map((ratio) => ratio.toFixed(2))
  return { ratio: Math.sqrt(one * other), detail: `${past} ms before, ${now} ms now, ratios ${least} to ${most}` }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const words = process.argv.slice(2).filter((word) => !word.startsWith('--'))
  const processes = Number(process.argv.find((word) => word.startsWith('--processes='))?.slice(12) ?? 6)
  const [revision = before, ...wanted] = words
  if (processes < 2) throw new Error('at least 2 processes: one in each order')
  const builds = await buildsOf(revision)
  for (const [name, measures] of workloads) {
    if (wanted.length > 0 && !wanted.some((word) => name.includes(word))) continue
    const { ratio, detail } = pair(name, builds, processes)
    console.log(`${ratio.toFixed(2)} ×  ${name}: ${measures}; ${detail}`)
  }
}
