import {
  type Drive,
  exampleDrives,
  exampleTransistors,
  type MosfetChoice,
  type MosfetConditions,
} from '@ohmward/mosfet'
import fc from 'fast-check'
import { log, share } from './numbers.js'

const pulls = fc.record({ at: fc.constantFrom('gate' as const, 'drive' as const), resistance: log(100, 1e6) })

const drives: fc.Arbitrary<Drive> = fc.oneof(
  fc
    .record({ pull: pulls, gateResistor: log(1, 1e5) })
    .map((change) => ({ ...exampleDrives['controller pin'], ...change })),
  fc
    .record({ pull: pulls, gateResistor: log(1, 1e4) })
    .map((change) => ({ ...exampleDrives['driver circuit'], ...change })),
  fc
    .record({ pull: pulls, gateResistor: log(1, 1e4), baseResistor: log(100, 1e6) })
    .map((change) => ({ ...exampleDrives['NPN and pull-up of 1 kohm'], ...change })),
  fc.record({ pull: pulls, complementary: fc.boolean() }).map((change) => ({ kind: 'follower' as const, ...change })),
)

const duties = fc.tuple(share(0, 1), share(0, 1)).map(([a, b]) => ({ from: Math.min(a, b), to: Math.max(a, b) }))

/** Switches of any class with any drive, sensible or not. */
export const mosfetChoices: fc.Arbitrary<MosfetChoice> = fc.record({
  transistor: fc.constantFrom(...Object.values(exampleTransistors)),
  parallel: fc.integer({ min: 1, max: 4 }),
  drive: drives,
  load: fc.oneof(
    log(0.05, 20).map((resistance) => ({ resistance: `${resistance} ohm ±10 %` })),
    log(0.1, 50).map((current) => ({ current })),
  ),
  edges: fc.constantFrom('resistive' as const, 'clamped inductive' as const),
  pwm: fc.record({ frequency: fc.oneof(fc.constant(0), log(1, 1e6)), duty: duties }),
  thermal: log(1, 500).map((junctionToAmbient) => ({ junctionToAmbient: `${junctionToAmbient} K/W ±20 %` })),
  wiring: fc.record({ sharedSource: share(0, 0.05), inductance: log(1e-9, 1e-5) }),
})

/** Supplies and airs of any size. */
export const mosfetConditions: fc.Arbitrary<MosfetConditions> = fc.record({
  openCircuit: fc.tuple(share(0.5, 15), share(0, 5)).map(([from, more]) => ({ from, to: from + more })),
  sourceResistance: share(0, 0.5),
  ambientCelsius: fc.tuple(share(-40, 60), share(0, 60)).map(([from, more]) => ({ from, to: from + more })),
})
