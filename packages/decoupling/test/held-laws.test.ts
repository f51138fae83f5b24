import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readDecoupling } from '../src/choice/read.js'
import { heldAtInsertion, levelHeld } from '../src/rail/diode.js'
import { planOf } from '../src/search/plan.js'
import { circuit, respondTo, voltageAt } from '../src/waveform/inside.js'
import { at, base } from './exact-rail.js'

const samples = (from: number, to: number, count: number) =>
  Array.from({ length: count + 1 }, (_, k) => from + (k / count) * (to - from))
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('a capacitor behind a diode', () => {
  it('falls on its own until the rail has come back for the last time, and then lives on the lowest rail that is left', () => {
    const drawn = fc.record({
      resistance: number(0.05, 0.3),
      inductance: fc.oneof(fc.constant(0), number(1e-7, 5e-6)),
      capacitance: number(1e-4, 2e-3),
      series: number(5e-3, 5e-2),
      current: number(1, 6),
      duration: fc.oneof(fc.constant(Number.POSITIVE_INFINITY), number(2e-4, 2e-3)),
      rate: number(20, 3000),
    })
    let fellOn = 0
    fc.assert(
      fc.property(drawn, (x) => {
        const source = { voltage: 4, resistance: x.resistance, inductance: x.inductance }
        const c = circuit(source, [{ capacitance: x.capacitance, resistance: x.series, inductance: 0 }], 0)
        const edge = 1e-5
        const step = respondTo(
          c,
          { kind: 'current', current: x.current },
          { rise: edge, duration: x.duration, fall: edge },
        )
        const found = levelHeld(c, step, x.duration + edge, x.rate)
        const ends = 8 * (x.resistance + x.series) * x.capacitance + (Number.isFinite(x.duration) ? x.duration : 0)
        // Then nothing is left but the line, which comes to any rail in the end.
        const comes = ends + 2 / x.rate
        const times = samples(0, ends, 3000).concat(samples(ends, comes, 1000).slice(1))
        const volts = times.map((t) => voltageAt(step, t))
        const line = (k: number) => 4 - x.rate * times[k]!
        const last = volts.findLastIndex((v, k) => v < line(k) - 1e-9)
        const rest = Math.min(...volts.slice(last + 1))
        const level = Math.min(last < 0 ? Number.POSITIVE_INFINITY : line(last + 1), rest)
        // Between two samples the line falls by so much.
        const width = 2e-3 + x.rate * (last < 0 ? 0 : times[last + 1]! - times[last]!)
        expect(Math.abs(found.level - level), JSON.stringify([x, level, found])).toBeLessThan(width)
        if (last >= 0 && rest < line(last + 1) - 3 * width) fellOn++
      }),
    )
    expect(fellOn).toBeGreaterThan(3)
  })

  it('that is plugged in charges through no less than the law of its diode drops at any current that can flow', () => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-4, current: 5e-3 } as const
    const board = planOf(readDecoupling({ ...base, logicRail }, at(3.7))).at({}).board
    const [bare, dropping] = heldAtInsertion(board)
    const { forwardVoltage, emission, slope, logic } = board
    const [start, full] = dropping!.bias!.at as [number, number]
    for (let share = 1; share > 1e-3; share /= 2) {
      const current = (share * board.source.voltage) / board.source.resistance
      const law = forwardVoltage + emission * Math.log(current / logic.current) + slope * (current - logic.current)
      // Its tangent: a voltage beyond which it charges, and a resistance.
      expect(full + dropping!.resistance * current).toBeGreaterThan(law)
      expect(bare!.resistance).toBeLessThanOrEqual(dropping!.resistance)
    }
    expect(full).toBeGreaterThan(start)
  })
})
