import {
  type DecouplingChoice,
  type DecouplingConditions,
  exampleCapacitors,
  exampleChoice,
  examplePort,
  type SwitchedLoad,
} from '@ohmward/decoupling'
import { exampleSupply } from '@ohmward/supply'
import fc from 'fast-check'
import { log, range, share, toleranced } from './numbers.js'

const capacitors = fc
  .uniqueArray(fc.constantFrom(...Object.values(exampleCapacitors)), { minLength: 1, maxLength: 3 })
  .chain((kinds) =>
    fc.tuple(...kinds.map((kind) => fc.integer({ min: 1, max: 4 }).map((count) => ({ ...kind, count })))),
  )

const sizes = fc.oneof(
  toleranced(log(0.5, 20), 'ohm', [1, 5, 10]).map((resistance) => ({ resistance })),
  toleranced(log(0.1, 5), 'A', [1, 5, 10]).map((current) => ({ current })),
  toleranced(log(0.2, 5), 'W', [5]).map((power) => ({ power })),
)
const timings = fc.oneof(
  fc.record({ rise: log(1e-7, 1e-4) }),
  fc.record({ rise: log(1e-7, 1e-5), duration: log(5e-5, 1e-2) }),
  fc.record({ rise: log(1e-7, 1e-6), pwm: fc.record({ frequency: log(500, 3e4), duty: share(0.1, 0.9) }) }),
)
const loads: fc.Arbitrary<SwitchedLoad> = fc.tuple(sizes, timings).map(([size, timing]) => ({ ...size, ...timing }))

const always = fc.record({
  source: fc.oneof(
    {
      weight: 4,
      arbitrary: log(5e-3, 0.1).map((ohms) => ({
        ...exampleSupply,
        source: { ...exampleSupply.source, resistance: `${ohms} ohm ±20 %` },
      })),
    },
    { weight: 1, arbitrary: log(0.3, 3).map((currentLimit) => ({ resistance: examplePort.resistance, currentLimit })) },
  ),
  capacitors,
  load: loads,
  limits: fc.constantFrom<DecouplingChoice['limits'][]>(
    { brownOut: '2.1 V ±5 %', clock: '1.7 V', amplifier: '1.8 V' },
    { brownOut: '2.7 V ±5 %', clock: '2.4 V', sensor: '2.7 V' },
    { converter: '2.5 V' },
  ),
})

const maybe: fc.Arbitrary<Partial<DecouplingChoice>> = fc.record(
  {
    idle: toleranced(log(1e-3, 0.1), 'A', [10]),
    brownOutEnabled: fc.boolean(),
    logicRail: fc.oneof(
      fc.record({
        behind: fc.constant('diode' as const),
        forwardVoltage: fc.constant('0.35 V ±50 mV'),
        capacitance: log(1e-5, 1e-3),
        current: log(1e-3, 0.05),
      }),
      fc.record({
        behind: fc.constant('resistor' as const),
        resistance: log(1, 50),
        capacitance: log(1e-5, 1e-3),
        current: log(1e-3, 0.05),
      }),
    ),
    insertion: fc.constantFrom<NonNullable<DecouplingChoice['insertion']>[]>(exampleChoice.insertion, {
      contactSurge: '150 A',
      railMaximum: '6 V',
    }),
    wantedLifeHours: log(500, 2e4),
  },
  { requiredKeys: [] },
)

/** Rails with any capacitors and loads; some that no capacitor holds. */
export const decouplingChoices: fc.Arbitrary<DecouplingChoice> = fc
  .tuple(always, maybe)
  .map(([needed, more]) => ({ ...needed, ...more }))

/** One cell, fresh or aged, and air. */
export const decouplingConditions: fc.Arbitrary<DecouplingConditions> = fc.record({
  openCircuit: range(2.9, 3.6, 0.8),
  ambientCelsius: range(-10, 30, 40),
  ageYears: range(0, 1, 5),
})
