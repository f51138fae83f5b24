import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circuit, type Response, respondTo, type Source } from '../src/waveform/inside.js'
import { loadCurrent, sourceCurrent } from '../src/waveform/quantities.js'
import { at } from '../src/waveform/signal/signal.js'

/* A load of constant power draws P = v·i at every instant, and no source gives more than its limit, whatever the steps they are followed in. */

const log = (from: number, to: number) =>
  fc.double({ min: Math.log(from), max: Math.log(to), noNaN: true }).map((x) => Math.exp(x))
const rails = fc.record({
  resistance: log(0.02, 0.2),
  inductance: fc.oneof(fc.constant(0), log(1e-7, 1e-5)),
  capacitance: log(5e-5, 2e-3),
  ESR: log(5e-3, 0.1),
  share: fc.double({ min: 0.1, max: 0.7, noNaN: true }),
})
type Rail = { resistance: number; inductance: number; capacitance: number; ESR: number }

/** Voltage, load current and source current at instants of a response while the load is on. */
function instants({ pieces }: Response): { v: number; i: number; s: number }[] {
  return pieces.flatMap(({ piece, phase }) =>
    phase !== 'on'
      ? []
      : [0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.98].map((share) => {
          const t = share * Math.min(piece.duration, 1)
          return { v: at(piece.voltage, t), i: at(loadCurrent(piece), t), s: at(sourceCurrent(piece), t) }
        }),
  )
}
const idle = 0.05
const follow = ({ resistance, inductance, capacitance, ESR }: Rail, power: number, more: Partial<Source> = {}) =>
  respondTo(
    circuit({ voltage: 3.7, resistance, inductance, ...more }, [{ capacitance, resistance: ESR, inductance: 0 }], idle),
    { kind: 'power', power },
    { rise: 0, duration: 2e-3, fall: 0 },
  )
/** The most power that a source gives: a quarter of V²/R. */
const mostOf = ({ resistance }: Rail) => 3.7 ** 2 / 4 / resistance

describe('a load of constant power', () => {
  it('draws it at every instant', () => {
    fc.assert(
      fc.property(rails, ({ share, ...rail }) => {
        const power = share * Math.min(mostOf(rail), 3.7 ** 2 / 4 / rail.ESR, 30)
        const response = follow(rail, power)
        fc.pre(response.collapse === null)
        const seen = instants(response)
        expect(seen.length).toBeGreaterThan(0)
        for (const { v, i } of seen) expect(Math.abs((v * (i - idle)) / power - 1)).toBeLessThan(1e-4)
      }),
      { numRuns: 40 },
    )
  })

  it('on a source that limits its current takes the rest from the capacitors, and the source stays at its limit', () => {
    fc.assert(
      fc.property(rails, ({ share, ...rail }) => {
        const still = { ...rail, inductance: 0, capacitance: Math.max(rail.capacitance, 1e-3) }
        const power = share * Math.min(mostOf(rail), 12)
        // Half of what the load takes in the end.
        const currentLimit = 0.5 * (power / 3.7)
        const response = follow(still, power, { currentLimit })
        const seen = instants(response).filter(({ v }) => v > 2.5)
        expect(seen.length).toBeGreaterThan(0)
        for (const { s } of seen) expect(s).toBeLessThanOrEqual(currentLimit * (1 + 1e-6) + 1e-9)
        for (const { v, i } of seen) expect(Math.abs((v * (i - idle)) / power - 1)).toBeLessThan(0.02)
      }),
      { numRuns: 40 },
    )
  })
})
