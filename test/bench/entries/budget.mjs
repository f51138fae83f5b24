import { extremes, propagate } from '../../../packages/budget/dist/index.js'
import { centralDifference } from '../central.mjs'
import { inputs, measured, model, row } from '../divider.mjs'
import * as hall from '../hall.mjs'
import { interleaved, repeated } from '../measure.mjs'

const CALLS = 2000

/** A chain of dividers whose output rises or falls with every one of its inputs. */
function ladder(n) {
  const names = Array.from({ length: n }, (_, i) => `R_${i}`)
  const model = (x) => names.reduce((sum, name, i) => (i % 2 ? sum + x[name] : 1 / (1 / sum + 1 / x[name])), 1)
  const spread = { nominal: 1, lower: 0.95, upper: 1.05, distribution: { kind: 'rectangular' } }
  return [Object.fromEntries(names.map((name) => [name, spread])), model]
}

/** Linear propagation over the bare central difference, which must agree on the standard uncertainty. */
const against = (inputs, model, row) => () => {
  const bare = centralDifference(inputs, model, row)
  const linear = () => propagate(inputs, model, { row })
  const [u, byHand] = [linear().u, bare()]
  if (Math.abs(u / byHand - 1) > 1e-3) throw new Error(`u = ${u}, by central differences ${byHand}`)
  const [ours, theirs] = interleaved([repeated(CALLS, linear), repeated(CALLS, bare)], { rounds: 9 })
  const [a, b] = [ours, theirs].map((ms) => `${((ms / CALLS) * 1000).toFixed(1)} µs`)
  return { value: ours / theirs, detail: `${a}, bare ${b}` }
}

export const entries = [
  {
    name: 'linear budget',
    measures: `linear propagation over the bare central difference of the same chain; ${measured}`,
    limit: { atMost: 3 },
    unit: '×',
    run: against(inputs, model, row),
  },
  {
    name: 'linear budget of a current',
    measures: `the same; ${hall.measured}`,
    limit: { atMost: 3 },
    unit: '×',
    run: against(hall.inputs, hall.model, hall.row),
  },
  {
    name: 'extremes are linear in the inputs',
    measures: 'evaluations for 40 inputs over those for 5, over 40/5; monotone ladder, 1 output',
    limit: { atMost: 1.3 },
    unit: '×',
    run: () => {
      const [few, some, many] = [5, 20, 40].map((n) => extremes(...ladder(n)).evaluations)
      return { value: many / few / (40 / 5), detail: `${few}, ${some}, ${many} evaluations for 5, 20, 40 inputs` }
    },
  },
]
