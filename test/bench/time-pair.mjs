/**
 * Times one workload in two builds, call about, in a process of its own, and prints what each takes undisturbed, in
 * milliseconds of processor time a call.
 */
import { time, undisturbed } from './measure.mjs'
import { workloads } from './workloads.mjs'

const [wanted, ...builds] = process.argv.slice(2)
const workload = workloads.find(([name]) => name === wanted)
if (workload === undefined) throw new Error(`no workload ${wanted}`)
const calls = []
for (const build of builds) calls.push(workload[2](await import(build)))

/** Calls in turn for so many milliseconds, and at least so many times: the times of each. */
function during(milliseconds, atLeast) {
  const times = calls.map(() => [])
  for (let sum = 0; sum < milliseconds || times[0].length < atLeast; ) {
    for (const [k, call] of calls.entries()) {
      const ms = time(call)
      times[k].push(ms)
      sum += ms
    }
  }
  return times
}

during(1000, 20)
console.log(JSON.stringify(during(1000, 20).map(undisturbed)))
