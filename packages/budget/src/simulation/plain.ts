import type { Simulation } from '../budget/budget.js'
import { coverage, sortTails, tailCount } from '../sampling/interval.js'
import { fillNormal, fillUniform, type Stream, stream } from '../sampling/random.js'
import { BLOCK } from '../sampling/sample.js'
import type { Settings } from './options.js'
import { type Draw, dimensions, fillColumns, type Plan } from './plan.js'
import type { Progress } from './progress.js'
import { partsOf, shortestErrorOf } from './shortest.js'
import { meanAndDeviation, shareWithin, summary } from './summary.js'

/** Fewest batches whose spread is believed; two, as JCGM 101 has it, agree by chance too often. */
const FEWEST = 5

/** Parts whose spread tells the error of the shortest interval. */
const PARTS = 16

/** Trials between two reports of progress: sixteen blocks. */
const STRIDE = 8192

/** Pseudorandom trials: as many as told, or batches until the ends of the interval are steady (JCGM 101:2008, 7.9.4). */
export function* plain(plan: Plan, settings: Settings): Generator<Progress, Simulation, void> {
  const { seed, level, accuracy, trials, maximumTrials, limits } = settings
  const streams: Stream[] = Array.from({ length: dimensions(plan) }, (_, index) => stream(seed, index))
  const draw: Draw = (index, column, n, normal) =>
    normal ? fillNormal(streams[index]!, column, n) : fillUniform(streams[index]!, column, n)
  const most = trials ?? maximumTrials
  const batch = trials ?? Math.min(most, Math.max(10_000, Math.ceil(100 / (1 - level))))
  let values = new Float64Array(trials ?? Math.min(most, 10 * batch))
  const ends: (readonly [number, number])[] = []
  let done = 0
  let u = 0
  let error = Number.POSITIVE_INFINITY
  while (done + batch <= most) {
    if (done + batch > values.length) {
      const larger = new Float64Array(Math.min(most, 2 * values.length))
      larger.set(values)
      values = larger
    }
    for (const end = done + batch; done < end; ) {
      const n = Math.min(BLOCK, end - done)
      fillColumns(plan, draw, n)
      plan.evaluate(values, done, n)
      done += n
      if (done % STRIDE < n) yield { trials: done, endError: error, share: done / most }
    }
    if (trials !== undefined) break
    const part = values.slice(done - batch, done)
    sortTails(part, tailCount(batch, level))
    ends.push(coverage(part, level).interval)
    u = meanAndDeviation(values.subarray(0, done))[1]
    if (ends.length >= FEWEST) {
      error = Math.max(errorOfMean(ends.map(([lower]) => lower)), errorOfMean(ends.map(([, upper]) => upper)))
      if (error <= accuracy * u) break
    }
  }
  const sample = values.subarray(0, done)
  const [mean, deviation] = meanAndDeviation(sample)
  const within = limits && shareWithin(sample, limits)
  const shortestError = shortestErrorOf(partsOf(sample, PARTS), done, level)
  sortTails(sample, tailCount(done, level))
  const found = coverage(sample, level)
  const endError = ends.length >= FEWEST ? error : errorOfRanks(sample, level)
  return summary(
    sample,
    {
      ...found,
      mean,
      u: deviation,
      endError,
      shortestError,
      ...(within !== undefined && { within, withinError: Math.sqrt((within * (1 - within)) / done) }),
    },
    settings,
  )
}

/** Standard error of the mean of batches (JCGM 101:2008, 7.9.4 d to g). */
function errorOfMean(of: readonly number[]): number {
  return meanAndDeviation(Float64Array.from(of))[1] / Math.sqrt(of.length)
}

/** Standard error of the ends of one sample: what the binomial spread of their ranks makes of them. */
function errorOfRanks(values: Float64Array, level: number): number {
  const n = values.length
  const tail = (1 - level) / 2
  const rank = tail * n - 0.5
  const spread = Math.sqrt(n * tail * (1 - tail))
  const near = Math.max(0, Math.round(rank - spread))
  const far = Math.min(n - 1, Math.max(near + 1, Math.round(rank + spread)))
  const half = (far - near) / 2
  const scale = spread / half / 2
  return Math.max(values[far]! - values[near]!, values[n - 1 - near]! - values[n - 1 - far]!) * scale
}
