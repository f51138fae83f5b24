import { extremes, propagate } from '../../../packages/budget/dist/index.js'
import { inputs, measured, model, row } from '../divider.mjs'
import { interleaved, repeated } from '../measure.mjs'

const CALLS = 2000

/** A chain of dividers whose output rises or falls with every one of its inputs. */
function ladder(n) {
  const names = Array.from({ length: n }, (_, i) => `R_${i}`)
  const model = (x) => names.reduce((sum, name, i) => (i % 2 ? sum + x[name] : 1 / (1 / sum + 1 / x[name])), 1)
  const spread = { nominal: 1, lower: 0.95, upper: 1.05, distribution: { kind: 'rectangular' } }
  return [Object.fromEntries(names.map((name) => [name, spread])), model]
}

export const entries = [
  {
    name: 'linear budget',
    measures: `linear propagation, a call; ${measured}`,
    limit: { atMost: 15 },
    unit: 'µs',
    run: () => {
      const [ms] = interleaved([repeated(CALLS, () => propagate(inputs, model, { row }))], { rounds: 9 })
      return { value: (ms / CALLS) * 1000 }
    },
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
