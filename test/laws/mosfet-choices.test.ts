import { checkMosfet, type Drive, exampleDrives, exampleTransistors, type MosfetChoice } from '@ohmward/mosfet'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const log = (from: number, to: number) =>
  fc.double({ min: Math.log(from), max: Math.log(to), noNaN: true }).map((x) => Number(Math.exp(x).toPrecision(4)))
const share = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((x) => Number(x.toFixed(4)))

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

const choices: fc.Arbitrary<MosfetChoice> = fc.record({
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

const conditions = fc.record({
  openCircuit: fc.tuple(share(0.5, 15), share(0, 5)).map(([from, more]) => ({ from, to: from + more })),
  sourceResistance: share(0, 0.5),
  ambientCelsius: fc.tuple(share(-40, 60), share(0, 60)).map(([from, more]) => ({ from, to: from + more })),
})

/** Places in an answer whose number isn't finite. */
function oddNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, one]) => oddNumbers(one, `${path}.${key}`))
}

describe('any switch that can be written down', () => {
  it('gets an answer of finite numbers whose parts agree with each other', () => {
    const verdicts = new Set<string>()
    fc.assert(
      fc.property(choices, conditions, (choice, around) => {
        const assessment = checkMosfet(choice, around, { simulation: false })
        const { verdict, margins, values, typical, worst, derivation } = assessment
        verdicts.add(verdict)
        expect(oddNumbers(assessment)).toEqual([])
        for (const { id, worst: at, limit, slack, sense, verdict: one } of margins) {
          expect([at, limit, slack].every(Number.isFinite), id).toBe(true)
          expect(Math.abs((sense === 'at least' ? at - limit : limit - at) - slack), id).toBeLessThanOrEqual(
            1e-9 * (Math.abs(at) + Math.abs(limit)) + 1e-15,
          )
          if (one === 'holds') expect(slack, id).toBeGreaterThanOrEqual(0)
        }
        for (const [symbol, value] of Object.entries(values)) expect(Number.isFinite(value), symbol).toBe(true)
        expect(derivation.length).toBeGreaterThan(25)
        // The worst board is never cooler than the typical one.
        const heat = (report: typeof worst) =>
          report.junction.kind === 'balance' ? report.junction.T_j : Number.POSITIVE_INFINITY
        expect(heat(worst)).toBeGreaterThanOrEqual(heat(typical) - 1e-6)
        if (typical.limitCurrent !== null)
          expect(worst.limitCurrent).toBeLessThanOrEqual(typical.limitCurrent * (1 + 1e-9))
        expect(verdict === 'holds').toBe(margins.every((margin) => margin.verdict === 'holds'))
      }),
      { numRuns: 120 },
    )
    expect(verdicts.size).toBeGreaterThan(1)
  })
})
