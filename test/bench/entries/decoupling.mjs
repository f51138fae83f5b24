import {
  checkDecoupling,
  circuit,
  exampleChoice,
  exampleConditions,
  respondTo,
  respondToPwm,
} from '../../../packages/decoupling/dist/index.js'
import { interleaved, repeated } from '../measure.mjs'

/** A rail at ever another source resistance, so that nothing can be remembered. */
const rail = (i, inductance, seriesInductance = 0) =>
  circuit(
    { voltage: 3.7, resistance: 0.1 + (i % 1000) * 1e-6, inductance },
    [{ capacitance: 1e-3, resistance: 0.03, inductance: seriesInductance }],
    0.01,
  )
const current = { kind: 'current', current: 5 }
const resistor = { kind: 'resistor', resistance: 0.7 }
const forever = { rise: 0, duration: Number.POSITIVE_INFINITY, fall: 0 }
const burst = { rise: 1e-5, duration: 1e-2, fall: 1e-5 }

const lowest = (name, measures, atMost, call) => ({
  name: `lowest point, ${name}`,
  measures: `from the parts to the lowest point and when, ${measures}; 1 thread`,
  limit: { atMost },
  unit: 'µs',
  run: () => {
    const calls = 20_000
    const [ms] = interleaved([repeated(calls, call)])
    return { value: (ms / calls) * 1000 }
  },
})

export const entries = [
  lowest('first order', 'a current step, one capacitor', 5, (i) => respondTo(rail(i, 0), current, forever).lowest),
  lowest('ringing', 'a current step, loop inductance', 5, (i) => respondTo(rail(i, 1e-5), current, forever).lowest),
  lowest('creeping', 'a resistor, loop inductance', 5, (i) => respondTo(rail(i, 3e-7), resistor, forever).lowest),
  lowest(
    'burst with rise and fall',
    'a resistor, loop inductance, four pieces',
    5,
    (i) => respondTo(rail(i, 3e-7), resistor, burst).lowest,
  ),
  lowest('PWM', 'steady state, a current, loop inductance', 100, (i) =>
    respondToPwm(rail(i, 3e-7), current, { frequency: 2e4, duty: 0.5, rise: 1e-6, fall: 1e-6 }),
  ),
  {
    name: 'check of a rail',
    measures:
      'ten margins over discharge, temperature and age, two kinds of capacitor, budget, extremes, no simulation; 1 thread',
    limit: { atMost: 16 },
    unit: 'ms',
    run: () => {
      const calls = 8
      const [ms] = interleaved([
        repeated(calls, () => checkDecoupling(exampleChoice, exampleConditions, { simulation: false })),
      ])
      return { value: ms / calls }
    },
  },
]
