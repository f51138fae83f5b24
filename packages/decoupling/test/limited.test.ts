import { describe, expect, it } from 'vitest'
import { at, circuit, respondTo, sourceCurrent, voltageAt } from '../src/waveform/inside.js'

/** A weak supply: 5 V, 0.25 ohm of cable, 0.5 A. */
const supply = { voltage: 5, resistance: 0.25, inductance: 0, currentLimit: 0.5 }
const part = { capacitance: 1e-3, resistance: 0.02, inductance: 0 }

/** Rail by small explicit steps: the source is a resistor until its limit. */
function bySteps(load: (t: number, v: number) => number, end: number, steps: number): number {
  let vc = supply.voltage
  let v = vc
  for (let n = 0; n <= steps; n++) {
    const t = (n / steps) * end
    // i_s = (V - v)/R up to the limit; v = vc + ESR·(i_s - i_load): the smaller of the two answers for i_s holds.
    for (let k = 0; k < 60; k++) {
      const i = Math.min(supply.currentLimit, (supply.voltage - v) / supply.resistance)
      v += 0.05 * (vc + part.resistance * (i - load(t, v)) - v)
    }
    const i = Math.min(supply.currentLimit, (supply.voltage - v) / supply.resistance)
    if (n < steps) vc += ((i - load(t, v)) / part.capacitance) * (end / steps)
  }
  return v
}

describe('a current-limited source', () => {
  const timing = { rise: 1e-4, duration: 2e-3, fall: 1e-4 }

  it('falls with the rest of the load current once it is at its limit', () => {
    const response = respondTo(circuit(supply, [part], 0), { kind: 'current', current: 2 }, timing)
    // In the limit the capacitor supplies 1.5 A: 1.5 V/ms less.
    const slope = (voltageAt(response, 1.9e-3) - voltageAt(response, 0.9e-3)) / 1e-3
    expect(slope).toBeCloseTo(-1500, 6)
    for (const { piece } of response.pieces) {
      for (const t of [0, 0.5, 1]) {
        const time = Math.min(piece.duration, 1e-2) * t
        expect(at(sourceCurrent(piece), time)).toBeLessThanOrEqual(0.5 + 1e-9)
      }
    }
  })

  it('is what small explicit steps give', () => {
    const response = respondTo(circuit(supply, [part], 0), { kind: 'current', current: 2 }, timing)
    const load = (t: number): number => 2 * Math.min(1, t / timing.rise)
    for (const t of [5e-5, 2e-4, 1e-3, 1.9e-3])
      expect(Math.abs(voltageAt(response, t) - bySteps(load, t, 4000))).toBeLessThan(2e-3)
  })

  it('serves a resistor at limit times resistance in the end, and recovers afterwards', () => {
    const long = { rise: 0, duration: 0.2, fall: 0 }
    const response = respondTo(circuit(supply, [part], 0), { kind: 'resistor', resistance: 2 }, long)
    expect(response.lowest.value).toBeCloseTo(0.5 * 2, 9)
    expect(response.lowest.kind).toBe('end')
    expect(voltageAt(response, 1)).toBeCloseTo(5, 9)
    const charging = response.pieces.filter(({ phase }) => phase === 'off')
    expect(charging.length).toBe(2)
    expect(charging[0]!.piece.duration).toBeCloseTo((part.capacitance * (5 - 0.5 * 0.25 - 1 - 0.5 * 0.02)) / 0.5, 6)
  })

  it("finds the end of a resistor's rise through the limit", () => {
    const response = respondTo(circuit(supply, [part], 0), { kind: 'resistor', resistance: 1 }, timing)
    const rise = response.pieces.filter(({ phase }) => phase === 'rise')
    expect(rise.length).toBe(2)
    const last = rise[1]!.piece
    const current = last.load.current + last.load.slope * last.duration
    expect(current * 1).toBeCloseTo(voltageAt(response, timing.rise), 9)
  })

  it('collapses under a current above its limit that stays', () => {
    const forever = { rise: 0, duration: Number.POSITIVE_INFINITY, fall: 0 }
    const { collapse } = respondTo(circuit(supply, [part], 0), { kind: 'current', current: 1 }, forever)
    // From the knee at 5 - 0.5·0.25 V down at 500 V/s, the way to the knee and ESR's drop aside.
    expect(collapse).toBeGreaterThan(0.009)
    expect(collapse).toBeLessThan(0.0105)
  })

  it('does not go to and fro at its limit where rounding is as large as what is between', () => {
    const weak = {
      voltage: 4.0053410627586805,
      resistance: 0.19712128350787722,
      inductance: 0,
      currentLimit: 0.3569245923,
    }
    const parts = [
      { capacitance: 0.00017542268828940258, resistance: 0.09855434649314875, inductance: 0 },
      { capacitance: 0.0018761738586402384, resistance: 0.010029080908263535, inductance: 0 },
      { capacitance: 0.00006688236240667914, resistance: 0.013071116578631302, inductance: 0 },
    ]
    const timing = { rise: 0, duration: 0.000003505942430854736, fall: 4.119312046737055e-8 }
    for (let k = -10; k <= 10; k++) {
      const source = { ...weak, currentLimit: weak.currentLimit + k * 1e-11 }
      const load = { kind: 'resistor', resistance: 0.3256759511841248 } as const
      const { pieces, lowest } = respondTo(circuit(source, parts, 0.0677853571321387), load, timing)
      expect(lowest.value).toBeGreaterThan(3.8)
      expect(pieces.length).toBeLessThan(100)
      for (const { piece } of pieces) {
        const end = Math.min(piece.duration, 1e-3)
        for (const t of [0, end / 2, end]) expect(at(sourceCurrent(piece), t)).toBeLessThan(weak.currentLimit + 1e-6)
      }
    }
  })
})
