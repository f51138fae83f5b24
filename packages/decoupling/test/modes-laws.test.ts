import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circuit, networkOf, restState } from '../src/waveform/circuit.js'
import { characteristic, evaluator } from '../src/waveform/modes/characteristic.js'
import type { Network } from '../src/waveform/modes/parts.js'
import { respond } from '../src/waveform/piece.js'
import { endOf } from '../src/waveform/ramp.js'
import { Reference } from './reference.js'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const orNone = (min: number, max: number) => fc.oneof(fc.constant(0), number(min, max))
const branch = fc.record({ capacitance: number(0.1, 3), resistance: number(0.1, 2), inductance: orNone(0.1, 2) })
const feed = fc.oneof(
  fc.record({ voltage: fc.constant(1), resistance: number(0.1, 3), inductance: orNone(0.1, 3) }),
  fc.constant({ current: 1 }),
)
const network = fc.record({
  feed,
  branches: fc.array(branch, { minLength: 1, maxLength: 4 }),
  conductance: orNone(0.1, 2),
})

describe('the admittances of a network', () => {
  it('come to the same multiplied out as factor by factor, and over s where nothing fixes the level', () => {
    fc.assert(
      fc.property(network, number(-2, 2), number(-2, 2), (one: Network, x, y) => {
        const isFloating = 'current' in one.feed && one.conductance === 0
        const [re, im] = evaluator(one, isFloating)(x, y)
        let [a, b, size] = [0, 0, 0]
        const list = characteristic(one)
        if (isFloating) expect(list[0]).toBe(0)
        for (const coefficient of (isFloating ? list.slice(1) : list).reverse()) {
          ;[a, b] = [a * x - b * y + coefficient, a * y + b * x]
          size = size * Math.hypot(x, y) + coefficient
        }
        expect(Math.hypot(re - a, im - b)).toBeLessThan(1e-11 * size)
      }),
    )
  })

  it('are those of Ohm and Kirchhoff: their sum is the polynomial over all denominators', () => {
    fc.assert(
      fc.property(network, number(0.1, 2), (one: Network, s) => {
        const series = one.branches.map((b) => 1 + s * b.capacitance * (b.resistance + s * b.inductance))
        const source = 'current' in one.feed ? Number.POSITIVE_INFINITY : one.feed.resistance + s * one.feed.inductance
        const admittance = one.branches.reduce(
          (sum, b, k) => sum + (s * b.capacitance) / series[k]!,
          one.conductance + 1 / source,
        )
        const below = series.reduce((all, x) => all * x, Number.isFinite(source) ? source : 1)
        const found = characteristic(one).reduceRight((sum, coefficient) => sum * s + coefficient, 0)
        expect(found / (admittance * below)).toBeCloseTo(1, 10)
      }),
    )
  })
})

describe('a ramp that is short against a slow mode', () => {
  it('ends where a matrix exponential has it, beside modes that ring many times in it', () => {
    const source = { voltage: 4, resistance: 0.1, inductance: 1e-6 }
    for (const small of [1e-7, 1e-6, 1e-5])
      for (const duration of [2e-6, 2e-5, 5e-5])
        for (const inductance of [0, 2e-8]) {
          const parts = [
            { capacitance: 1, resistance: 0.05, inductance },
            { capacitance: small, resistance: 0.01, inductance },
          ]
          const c = circuit(source, parts, 0)
          const rest = restState(c)
          const slope = 2 / duration
          const piece = respond(networkOf(c, 0, false), rest, { current: 0, slope }, duration)
          const end = endOf(piece, rest)
          const reference = new Reference(source, parts, 0)
          const rails = reference.run(0, 0, slope, duration, 1)
          const found = [
            end.source,
            ...parts.flatMap((_, k) => [end.voltages[k]!, ...(inductance > 0 ? [end.currents[k]!] : [])]),
          ]
          expect(end.rail).toBeCloseTo(rails[1]!, 8)
          found.forEach((value, k) => {
            expect(value, `${small} ${duration} ${inductance} ${k}`).toBeCloseTo(reference.x[k]!, 8)
          })
        }
  })
})
