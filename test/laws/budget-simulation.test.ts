import { extremes, propagate, simulate } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const bounded = fc.constantFrom<Spread['distribution']>(
  { kind: 'rectangular' },
  { kind: 'triangular' },
  { kind: 'trapezoidal', top: 0.3 },
  { kind: 'arcsine' },
)
const spreadOf = (distribution: fc.Arbitrary<Spread['distribution']>) =>
  fc
    .record({
      middle: fc.double({ min: 1, max: 10, noNaN: true }),
      relative: fc.double({ min: 0.001, max: 0.3, noNaN: true }),
      distribution,
    })
    .map(
      ({ middle, relative, distribution }): Spread => ({
        nominal: middle,
        lower: middle * (1 - relative),
        upper: middle * (1 + relative),
        distribution,
      }),
    )
const three = (distribution: fc.Arbitrary<Spread['distribution']>) =>
  fc.record({ a: spreadOf(distribution), b: spreadOf(distribution), c: spreadOf(distribution) })
const any = fc.oneof(
  bounded,
  fc.constantFrom<Spread['distribution']>(
    { kind: 'normal', coverage: 3 },
    { kind: 't', coverage: 3, degreesOfFreedom: 8 },
  ),
)
type Names = Readonly<Record<'a' | 'b' | 'c', number>>
const models: ((x: Names) => number)[] = [
  (x) => (x.a * x.b) / (x.b + x.c),
  (x) => x.a - x.b * x.c,
  (x) => Math.min(x.a, x.b) + x.c ** 2,
  (x) => Math.cbrt(x.a) / x.c,
]
const model = fc.constantFrom(...models)
const method = fc.constantFrom('plain' as const, 'quasi' as const)

describe('simulation', () => {
  it('never leaves the extremes where the inputs are bounded', () => {
    fc.assert(
      fc.property(three(bounded), model, method, fc.nat(), (inputs, f, how, seed) => {
        const s = simulate(inputs, f, { method: how, seed, trials: 2048 })
        const { lower, upper } = extremes(inputs, f)
        const rounding = 1e-9 * (Math.abs(lower) + Math.abs(upper))
        expect(s.minimum).toBeGreaterThanOrEqual(lower - rounding)
        expect(s.maximum).toBeLessThanOrEqual(upper + rounding)
        for (const [from, to] of [s.interval, s.shortest]) {
          expect(s.minimum).toBeLessThanOrEqual(from)
          expect(from).toBeLessThanOrEqual(to)
          expect(to).toBeLessThanOrEqual(s.maximum)
        }
      }),
      { numRuns: 100 },
    )
  })

  it('agrees with linear propagation in expectation and u where the model is linear', () => {
    fc.assert(
      fc.property(
        three(bounded),
        fc.tuple(...[0, 1, 2].map(() => fc.integer({ min: -5, max: 5 }))),
        (inputs, [p, q, r]) => {
          fc.pre(p !== 0 || q !== 0 || r !== 0)
          const f = (x: Names) => p! * x.a + q! * x.b + r! * x.c
          const linear = propagate(inputs, f)
          const s = simulate(inputs, f)
          expect(Math.abs(s.mean - linear.estimate)).toBeLessThan(0.01 * linear.u)
          expect(Math.abs(s.u / linear.u - 1)).toBeLessThan(0.01)
        },
      ),
      { numRuns: 60 },
    )
  })

  it('gives plain trials and lattice points the same interval, within what both claim', () => {
    fc.assert(
      fc.property(three(any), model, fc.nat(1000), (inputs, f, seed) => {
        const plain = simulate(inputs, f, { method: 'plain', seed })
        const quasi = simulate(inputs, f, { method: 'quasi', seed })
        const error = Math.hypot(plain.endError, quasi.endError)
        for (const end of [0, 1]) {
          expect(Math.abs(plain.interval[end]! - quasi.interval[end]!)).toBeLessThan(5 * error + 0.01 * plain.u)
        }
      }),
      { numRuns: 25 },
    )
  })

  it('scales and shifts with the model', () => {
    fc.assert(
      fc.property(three(any), model, fc.constantFrom(-1024, 0.25, 8), (inputs, f, k) => {
        const one = simulate(inputs, f)
        const other = simulate(inputs, (x) => k * f(x))
        const [lower, upper] = k < 0 ? [one.interval[1], one.interval[0]] : one.interval
        const slack = k < 0 ? 3 * Math.abs(k) * one.endError : 1e-9 * Math.abs(k) * one.u
        expect(Math.abs(other.interval[0] - k * lower)).toBeLessThanOrEqual(slack)
        expect(Math.abs(other.interval[1] - k * upper)).toBeLessThanOrEqual(slack)
        expect(other.u / (Math.abs(k) * one.u)).toBeCloseTo(1, 6)
      }),
      { numRuns: 40 },
    )
  })

  it('gives the same answer again', () => {
    fc.assert(
      fc.property(three(any), model, method, fc.maxSafeNat(), (inputs, f, how, seed) => {
        const options = { method: how, seed, trials: 1000 }
        expect(simulate(inputs, f, options)).toEqual(simulate(inputs, f, options))
      }),
      { numRuns: 30 },
    )
  })
})
