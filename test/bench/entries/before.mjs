import { before } from '../builds.mjs'
import { buildsOf, pair } from '../pair.mjs'
import { workloads } from '../workloads.mjs'

let builds

/** Each workload in this checkout over the same in the commit before the second cut. */
export const entries = workloads.map(([name, measures]) => ({
  name,
  measures: `${measures}; over the same at ${before}, call about, 1 thread`,
  limit: { atMost: 1.1 },
  unit: '×',
  run: async () => {
    builds ??= await buildsOf(before)
    const { ratio, detail } = pair(name, builds)
    return { value: ratio, detail }
  },
}))
