import type { Simulation } from '../budget/budget.js'
import { LARGEST, lattice } from '../sampling/quasi.js'
import { BLOCK } from '../sampling/sample.js'
import { normalQuantile } from '../statistics/normal.js'
import { controlOf } from './control.js'
import { estimate } from './estimate.js'
import type { Settings } from './options.js'
import { type Draw, dimensions, fillColumns, type Plan } from './plan.js'
import type { Progress } from './progress.js'
import { partsOfCopies, shortestErrorOf } from './shortest.js'
import { summary } from './summary.js'

/** Independently shifted copies of the lattice; their spread is the error. */
const COPIES = 16

/** Points of a copy at the first stage. */
const FIRST = 128

/** Lattice points, doubled until the ends of the interval are steady. */
export function* quasi(plan: Plan, settings: Settings): Generator<Progress, Simulation, void> {
  const { seed, accuracy, trials, maximumTrials } = settings
  const most = Math.min(COPIES * LARGEST, trials ?? maximumTrials)
  const control = controlOf(plan)
  const size = dimensions(plan)
  let values = new Float64Array(0)
  let controls = new Float64Array(0)
  const stages: number[] = []
  let endError = Number.POSITIVE_INFINITY
  for (let points = FIRST; ; points *= 2) {
    const doubling = points > FIRST
    const part = lattice(seed, COPIES, size, points, doubling)
    stages.push(part.share)
    let done = values.length
    const total = points * COPIES
    values = grown(values, total)
    controls = grown(controls, total)
    const start = done
    let from = 0
    let sinceReport = 0
    const draw: Draw = (index, column, n, normal) => {
      part.fill(index, column, from, n)
      if (normal) for (let i = 0; i < n; i++) column[i] = normalQuantile(column[i]!)
    }
    while (done < total) {
      const n = Math.min(BLOCK, total - done)
      from = done - start
      fillColumns(plan, draw, n, control?.watch(controls, done))
      plan.evaluate(values, done, n)
      done += n
      sinceReport += n
      if (sinceReport >= 16 * BLOCK) {
        sinceReport = 0
        yield { trials: done, endError, share: Math.min(1, done / most) }
      }
    }
    const { found, sorted } = estimate(values, controls, stages, control, settings)
    const met = trials === undefined ? found.endError <= accuracy * found.u || 2 * total > most : total >= trials
    const enough = met || 2 * points > LARGEST
    if (enough) {
      const shortestError = shortestErrorOf(partsOfCopies(values, stages, COPIES), total, settings.level)
      return summary(sorted, { ...found, shortestError }, settings)
    }
    endError = found.endError
    yield { trials: done, endError, share: Math.min(1, done / most) }
  }
}

/** The values in a longer array, the new places filled with 0. */
function grown(values: Float64Array, length: number): Float64Array<ArrayBuffer> {
  const longer = new Float64Array(length)
  longer.set(values)
  return longer
}
