import { describe, expect, it } from 'vitest'
import { networkOf } from '../src/waveform/circuit.js'
import {
  at,
  branchCurrent,
  branchVoltage,
  circuit,
  derivative,
  type Load,
  loadCurrent,
  type Piece,
  respondTo,
  type Source,
  sourceCurrent,
} from '../src/waveform/inside.js'
import { respond, type State, stateAt } from '../src/waveform/piece.js'
import { randomCase } from './random.js'
import { uniform } from './reference.js'

/*
 * What every stretch of a waveform owes to circuit laws, whatever it was found by: Kirchhoff's current law at the rail, the
 * law of each capacitor, and the voltage along each branch. Resistors and currents as loads, a constant power, and
 * sources at their limit, whose rail follows a parabola while the load rises.
 */

function holdsIn(piece: Piece, branches: readonly { capacitance: number; resistance: number; inductance: number }[]) {
  const end = Number.isFinite(piece.duration) ? piece.duration : 1e-3
  for (const share of [0, 0.3, 0.7, 1]) {
    const t = share * end
    const [fed, drawn] = [at(sourceCurrent(piece), t), at(loadCurrent(piece), t)]
    const rail = at(piece.voltage, t)
    const currents = branches.map((_, k) => branchCurrent(piece, k))
    const sum = currents.reduce((all, one) => all + at(one, t), 0)
    const largest = Math.max(1e-3, Math.abs(fed), Math.abs(drawn), ...currents.map((one) => Math.abs(at(one, t))))
    expect(Math.abs(fed - drawn - sum) / largest).toBeLessThan(1e-7)
    branches.forEach(({ capacitance, resistance, inductance }, k) => {
      const current = at(currents[k]!, t)
      const inside = branchVoltage(piece, k)
      expect(Math.abs(capacitance * at(derivative(inside), t) - current) / largest).toBeLessThan(1e-6)
      const along = at(inside, t) + resistance * current + inductance * at(derivative(currents[k]!), t)
      expect(Math.abs(along - rail) / Math.max(1, Math.abs(rail))).toBeLessThan(1e-7)
    })
  }
}

describe('currents and voltages of any rail obey circuit laws', () => {
  const random = uniform(20_261_130)
  const cases = Array.from({ length: 60 }, () => randomCase(random))

  it.each<[string, (given: (typeof cases)[number]) => { source: Source; load: Load }]>([
    ['with a current or a resistor', ({ source, load }) => ({ source, load })],
    ['with a constant power', ({ source }) => ({ source, load: { kind: 'power', power: source.voltage } })],
    [
      'with a source that limits, without inductance in its loop',
      ({ source }) => ({
        source: { ...source, inductance: 0, currentLimit: 0.4 },
        load: { kind: 'current', current: 0.3 + source.voltage / 3 },
      }),
    ],
  ])('%s', (_, of) => {
    let curved = 0
    for (const given of cases) {
      const { source, load } = of(given)
      const c = circuit(source, given.parts, given.idle)
      for (const { piece } of respondTo(c, load, given.timing).pieces) {
        holdsIn(piece, piece.solved.network.branches)
        if (piece.voltage.curve !== 0) curved++
      }
    }
    if (_ !== 'with a current or a resistor') expect(curved).toBeGreaterThan(0)
  })

  it.each([false, true])(
    'from any state, beside a conductance, with a load along a parabola; at a current limit: %s',
    (isLimited) => {
      const between = (from: number, to: number) => from + (to - from) * random()
      for (const { source, parts, timing, idle } of cases) {
        const c = circuit(isLimited ? { ...source, inductance: 0, currentLimit: 2 } : source, parts, idle)
        const solved = networkOf(c, between(0.1, 2), isLimited)
        const { branches } = solved.network
        const any = (from: number, to: number) => branches.map(() => between(from, to))
        const currents = any(-1, 1).map((current, k) => (branches[k]!.inductance > 0 ? current : 0))
        const state: State = { rail: 0, source: between(0, 2), voltages: any(2, 5), currents }
        const per = 1 / timing.duration
        const load = {
          current: between(0, 2),
          slope: between(-2, 2) * per,
          ...(!isLimited && { curve: between(-2, 2) * per * per }),
        }
        const piece = respond(solved, state, load, timing.duration)
        holdsIn(piece, branches)
        // What remembers begins where it was, and the state at any time is what the quantities say.
        branches.forEach(({ inductance }, k) => {
          expect(at(branchVoltage(piece, k), 0)).toBeCloseTo(state.voltages[k]!, 7)
          if (inductance > 0) expect(at(branchCurrent(piece, k), 0)).toBeCloseTo(currents[k]!, 6)
        })
        if (c.source.inductance > 0) expect(at(sourceCurrent(piece), 0)).toBeCloseTo(state.source, 6)
        for (const share of [0.1, 0.6]) {
          const t = share * timing.duration
          const there = stateAt(piece, t)
          expect(there.rail).toBeCloseTo(at(piece.voltage, t), 9)
          expect(there.source).toBeCloseTo(at(sourceCurrent(piece), t), 7)
          branches.forEach((_, k) => {
            expect(there.voltages[k]!).toBeCloseTo(at(branchVoltage(piece, k), t), 9)
            expect(there.currents[k]!).toBeCloseTo(at(branchCurrent(piece, k), t), 7)
          })
        }
      }
    },
  )
})
