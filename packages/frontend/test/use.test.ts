import { checkDesign, type Design, exampleDesign, exampleDesigns, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { powerOf } from '../src/answer/power.js'
import { cutter } from './cutter.js'

const walk = (design: Design) => walkOf(readDesign(design), { charges: 2 })

describe('down to where the cells come in use', () => {
  /** Open-circuit voltage of one cell where the walk ends: the lowest of all boards. */
  const lowest = (design: Design) => {
    const { charges, around, solve } = walk(design)
    const end = charges.at(-1)!
    const { source } = solve({ charge: { from: end, to: end }, ...around })
    const { source: cells } = readDesign(design).supply
    return source.openCircuit.lower / (cells.kind === 'cell' ? cells.inSeries : 1)
  }

  it('is the cut-off where a stop acts before; of a cell off its curve as everywhere', () => {
    expect(lowest(exampleDesign)).toBeCloseTo(3 - 0.03, 5)
  })

  it('is lower where the stop may act lower, and the voltage of damage where nothing watches', () => {
    const stop = { reads: 'at rest', stop: '2.8 V', calibration: '1 %', noise: 0 } as const
    expect(lowest({ ...exampleDesign, monitor: stop })).toBeCloseTo(2.8 * 0.99, 5)
    // The curve of the two cells has no more than 2.5 V left at its end, but for the spread.
    expect(lowest(cutter)).toBeLessThan(2.5)
    const { monitor: _, ...unwatched } = exampleDesign
    expect(lowest(unwatched)).toBeLessThan(2.5)
  })

  it('is followed to the last cell, the one that lies highest on its curve', () => {
    const ends = [0, 0.1].map(
      (openCircuitSpread) =>
        walk({
          ...exampleDesign,
          supply: { ...exampleDesign.supply, source: { ...exampleDesign.supply.source, openCircuitSpread } },
        }).charges.at(-1)!,
    )
    expect(ends[1]).toBeLessThan(ends[0]!)
  })

  it('a monitor reads against a reference or is refused', () => {
    const { internalReference: _, ...controller } = exampleDesign.controller
    expect(() => readDesign({ ...exampleDesign, controller })).toThrow(/^controller\.internalReference/)
  })
})

describe('power in pulses', () => {
  const at = (frequency: string, capacitance: string) =>
    powerOf(
      walk({
        ...exampleDesign,
        pwm: { frequency, duty: { from: 0.1, to: 0.5 } },
        decoupling: {
          ...exampleDesign.decoupling,
          capacitors: [{ capacitance, ratedVoltage: 6.3, seriesResistance: '5 mohm' }],
        },
      }),
    )

  it('is that of a rail that stands still where the capacitors are large and the pulses fast', () => {
    const { on, mean } = at('20 kHz', '10 mF')
    const { solved } = walk(exampleDesign).over({ charge: { from: 1, to: 1 }, ...walk(exampleDesign).around })
    const [R_s, R_b] = [solved.source.resistance.lower, solved.load.lower + solved.switch.lower]
    // Half of the current, half of the drop in the source.
    expect(mean.upper / (0.5 * on.upper)).toBeGreaterThan(1 + 0.9 * (((R_s + R_b) / (R_s / 2 + R_b)) ** 2 - 1))
  })

  it('is the share of the duty where they are small and the pulses slow', () => {
    const { on, mean, limit } = at('20 Hz', '1 uF')
    expect(mean.upper / (0.5 * on.upper)).toBeCloseTo(1, 4)
    expect(limit!.dutyWithoutReading * on.upper).toBeCloseTo(20, 2)
    expect(at('20 kHz', '10 mF').limit!.dutyWithoutReading).toBeLessThan(limit!.dutyWithoutReading)
  })

  it('is read too high while the capacitors still hold the rail up, which is said', () => {
    const early = (design: Design) =>
      checkDesign(design, { charges: 2 }).cautions.filter((text) => text.includes('still hold up the rail'))
    expect(early(exampleDesign)).toHaveLength(1)
    expect(early({ ...exampleDesign, hall: { ...exampleDesign.hall, wait: '0.8 ms' } })).toEqual([])
    expect(early(exampleDesigns.mat)).toEqual([])
  })
})
