import fc from 'fast-check'
import { expect, it } from 'vitest'
import { ChargingCircuit, zeros } from '../src/waveform/charging/charging-circuit.js'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const part = fc.record({
  capacitance: number(0.2, 3),
  resistance: number(0.1, 2),
  inductance: fc.oneof(fc.constant(0), number(0.1, 2)),
  bias: fc.constantFrom(undefined, { at: [0, 10], factor: [1, 0.4] }),
})
const parts = fc.array(part, { minLength: 1, maxLength: 3 })
const source = fc.record({
  voltage: number(1, 5),
  resistance: number(0.1, 2),
  inductance: fc.oneof(fc.constant(0), number(0.1, 2)),
})

it('a step of charging solves d·x - J·x = b, J by differences of the slopes, with inductance anywhere, everywhere and nowhere', () => {
  fc.assert(
    fc.property(
      source,
      parts,
      number(0.5, 5),
      fc.array(number(-1, 1), { minLength: 14, maxLength: 14 }),
      (from, all, d, draws) => {
        const circuit = new ChargingCircuit(from, all)
        const { size } = circuit
        const y = zeros(size).map((_, k) => (k === 0 || k > all.length ? draws[k]! : 3 + draws[k]!))
        const b = zeros(size).map((_, k) => draws[7 + k]!)
        // A current where there is no inductance is none.
        const isState = (k: number) =>
          k === 0 ? from.inductance > 0 : k <= all.length || all[k - 1 - all.length]!.inductance > 0
        for (let k = 0; k < size; k++) if (!isState(k)) y[k] = b[k] = 0
        const slopesAt = (state: readonly number[]) => {
          const f = zeros(size)
          circuit.slopes(state, f)
          return f
        }
        circuit.linearize(y, slopesAt(y))
        const x = [...b]
        circuit.solve(x, d)
        const h = 1e-4
        const [up, down] = [1, -1].map((sign) => slopesAt(y.map((value, k) => value + sign * h * x[k]!)))
        const largest = 1 + Math.max(...x.map(Math.abs))
        for (let k = 0; k < size; k++) {
          const Jx = (up![k]! - down![k]!) / (2 * h)
          expect(Math.abs(d * x[k]! - Jx - b[k]!) / largest, String(k)).toBeLessThan(1e-5)
        }
      },
    ),
  )
})
