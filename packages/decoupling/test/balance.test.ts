import { describe, expect, it } from 'vitest'
import {
  addSquares,
  at,
  branchCurrent,
  branchVoltage,
  circuit,
  derivative,
  integralOfProduct,
  loadCurrent,
  respondTo,
  sourceCurrent,
} from '../src/waveform/inside.js'
import { randomCase } from './random.js'
import { uniform } from './reference.js'

const random = uniform(99)
const cases = Array.from({ length: 120 }, () => randomCase(random))

describe('Kirchhoff and the energy', () => {
  it('at every instant the currents at the rail close, and every branch obeys its own law, to 1 part in 10⁹', () => {
    for (const { source, parts, idle, load, timing } of cases) {
      const c = circuit(source, parts, idle)
      const { pieces } = respondTo(c, load, timing)
      for (const { piece } of pieces) {
        const time = Math.min(piece.duration, timing.duration)
        const i = sourceCurrent(piece)
        const branches = c.branches.map((_, k) => ({ i: branchCurrent(piece, k), v: branchVoltage(piece, k) }))
        for (const part of [0, 0.001, 0.03, 0.4, 1]) {
          const t = part * time
          const scale = Math.max(idle, Math.abs(at(i, t)), ...branches.map((b) => Math.abs(at(b.i, t))))
          const out = branches.reduce((sum, b) => sum + at(b.i, t), at(loadCurrent(piece), t))
          expect(Math.abs(at(i, t) - out)).toBeLessThan(1e-9 * scale)
          const drop = source.resistance * at(i, t) + source.inductance * at(derivative(i), t)
          expect(Math.abs(source.voltage - drop - at(piece.voltage, t))).toBeLessThan(1e-9 * source.voltage)
          branches.forEach((b, k) => {
            const { resistance, inductance, capacitance } = c.branches[k]!
            const across = at(b.v, t) + resistance * at(b.i, t) + inductance * at(derivative(b.i), t)
            expect(Math.abs(across - at(piece.voltage, t))).toBeLessThan(1e-9 * source.voltage)
            expect(Math.abs(capacitance * at(derivative(b.v), t) - at(b.i, t))).toBeLessThan(1e-9 * scale)
          })
        }
      }
    }
  }, 30_000)

  it('what the source gives is lost, stored or delivered, to 1 part in 10⁹', () => {
    for (const { source, parts, idle, load, timing } of cases) {
      const c = circuit(source, parts, idle)
      const { pieces } = respondTo(c, load, timing)
      for (const { piece, phase } of pieces) {
        if (phase === 'off') continue
        const T = piece.duration
        const i = sourceCurrent(piece)
        const volts = { ...i, constant: source.voltage, slope: 0, re: i.re.map(() => 0), im: i.im.map(() => 0) }
        const stored = (L: number, x: typeof i): number => (L / 2) * (at(x, T) ** 2 - at(x, 0) ** 2)
        const given = integralOfProduct(volts, i, T)
        let found = source.resistance * integralOfProduct(i, i, T) + stored(source.inductance, i)
        found += integralOfProduct(piece.voltage, loadCurrent(piece), T)
        const currents = c.branches.map((_, k) => branchCurrent(piece, k))
        const squares = currents.map(() => 0)
        addSquares(currents, T, squares)
        c.branches.forEach(({ resistance, inductance, capacitance }, k) => {
          found += resistance * squares[k]! + stored(inductance, currents[k]!)
          found += stored(capacitance, branchVoltage(piece, k))
        })
        const scale = c.branches.reduce((sum, b) => sum + b.capacitance * source.voltage ** 2, Math.abs(given))
        expect(Math.abs(given - found)).toBeLessThan(1e-9 * scale)
      }
    }
  }, 30_000)

  it('nothing that remembers jumps between two pieces', () => {
    for (const { source, parts, idle, load, timing } of cases) {
      const c = circuit(source, parts, idle)
      const { pieces } = respondTo(c, load, timing)
      for (let n = 1; n < pieces.length; n++) {
        const [before, after] = [pieces[n - 1]!.piece, pieces[n]!.piece]
        c.branches.forEach(({ inductance }, k) => {
          const v = at(branchVoltage(before, k), before.duration)
          expect(Math.abs(v - at(branchVoltage(after, k), 0))).toBeLessThan(1e-9 * source.voltage)
          if (inductance === 0) return
          const j = at(branchCurrent(before, k), before.duration)
          expect(Math.abs(j - at(branchCurrent(after, k), 0))).toBeLessThan(
            1e-9 * (idle + source.voltage / source.resistance),
          )
        })
      }
    }
  }, 30_000)
})
