import {
  checkMosfet,
  exampleChoice,
  exampleConditions,
  inputsOf,
  lawOf,
  readLaw,
  readMosfet,
  solveJunction,
  switchOf,
  topologyOf,
} from '../../../packages/mosfet/dist/index.js'
import { interleaved, repeated } from '../measure.mjs'

const laws = {
  linear: lawOf({ kind: 'linear', perKelvin: 0.0045 }),
  power: lawOf({ kind: 'power', exponent: 2.3 }),
  points: lawOf(readLaw(exampleChoice.transistor.temperatureLaw, 'law')),
}

/** The hot knife's transistor at ever another cell voltage, so that nothing can be remembered. */
const balance = (i) => ({ T_a: 40, R_th: 60, P_0: 0.05, D: 0.7, R_on: 0.02, V: 3 + (i % 1000) * 1.2e-3, r: 0.8, k: 1 })

const read = readMosfet(exampleChoice, exampleConditions)
const circuit = switchOf(topologyOf(read))
const nominal = Object.fromEntries(
  Object.entries(inputsOf(read)).map(([symbol, input]) => [symbol, typeof input === 'number' ? input : input.nominal]),
)

export const entries = [
  ...Object.entries(laws).map(([name, law]) => ({
    name: `junction, ${name} law`,
    measures: 'one junction solved with a resistive load, lowest root, residual below 1e-9; 1 thread',
    limit: { atMost: 2 },
    unit: 'µs',
    run: () => {
      const calls = 20_000
      const [ms] = interleaved([repeated(calls, (i) => solveJunction(balance(i), law))])
      return { value: (ms / calls) * 1000 }
    },
  })),
  {
    name: 'switch, chain and junction',
    measures: 'from the source to the junction, 41 inputs, every value; 1 thread',
    limit: { atMost: 5 },
    unit: 'µs',
    run: () => {
      const calls = 20_000
      const x = Array.from({ length: 100 }, (_, i) => ({ ...nominal, V_oc: 3 + i * 0.012 }))
      const [ms] = interleaved([repeated(calls, (i) => circuit.junction(x[i % 100]))])
      return { value: (ms / calls) * 1000 }
    },
  },
  {
    name: 'check of a switch',
    measures: 'every margin over discharge, ambient and duty, two linear budgets, extremes, no simulation; 1 thread',
    limit: { atMost: 16 },
    unit: 'ms',
    run: () => {
      const calls = 10
      const [ms] = interleaved([
        repeated(calls, () => checkMosfet(exampleChoice, exampleConditions, { simulation: false })),
      ])
      return { value: ms / calls }
    },
  },
]
