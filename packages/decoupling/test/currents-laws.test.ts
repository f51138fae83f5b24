import { describe, expect, it } from 'vitest'
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
})
