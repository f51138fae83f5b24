import { nearest, preferredValues } from '../../../packages/quantity/dist/index.js'
import { interleaved, repeated } from '../measure.mjs'

const values = Array.from({ length: 1000 }, (_, i) => 10 ** (-2 + (i * 9) / 1000))
const all = []

/** Every preferred value from 1 mΩ to 1 GΩ, looked through for the smallest ratio. */
function byForce(value) {
  if (all.length === 0) {
    const decade = preferredValues('E192').map((x) => x / preferredValues('E192')[0])
    for (let power = -3; power <= 9; power++) for (const x of decade) all.push(x * 10 ** power)
  }
  let best = all[0]
  for (const x of all) if (Math.abs(Math.log(x / value)) < Math.abs(Math.log(best / value))) best = x
  return best
}

export const entries = [
  {
    name: 'nearest preferred value',
    measures: 'search through all of E192 from 1 mΩ to 1 GΩ over nearest(), 1000 values, 1 thread',
    limit: { atLeast: 20 },
    unit: '×',
    run: () => {
      for (const value of values) {
        const [a, b] = [nearest(value, 'E192'), byForce(value)]
        const off = Math.abs(Math.log(a / value)) - Math.abs(Math.log(b / value))
        if (off > 0.0005) throw new Error(`nearest(${value}) = ${a}, by force ${b}`)
      }
      const [ours, force] = interleaved([
        repeated(20_000, (i) => nearest(values[i % 1000], 'E192')),
        repeated(200, (i) => byForce(values[i])),
      ])
      return { value: force / 200 / (ours / 20_000), detail: `${((ours / 20_000) * 1e6).toFixed(0)} ns a value` }
    },
  },
]
