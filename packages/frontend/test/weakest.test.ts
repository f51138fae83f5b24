import { readCell } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { weakestAt } from '../src/monitor/weakest.js'

const points = [
  [0, 2.5],
  [0.05, 3.1],
  [0.1, 3.3],
  [0.5, 3.65],
  [1, 4.2],
] as const
const cell = (inSeries: number, capacity: string, more: object = {}) =>
  readCell({
    inSeries,
    openCircuit: points.map(([q, v]) => `${q}: ${v} V`).join(', '),
    openCircuitSpread: 0,
    openCircuitSpreadEmpty: 0,
    capacity,
    resistance: '20 mohm',
    continuousCurrent: 10,
    pulseCurrent: 20,
    ...more,
  } as never)

/** Voltage of a cell by hand: straight between the points, nothing below empty. */
function volts(charge: number): number {
  if (charge <= 0) return 0
  const i = points.findIndex(([q]) => q >= charge)
  const [[q0, v0], [q1, v1]] = [points[i - 1]!, points[i]!]
  return v0 + ((v1 - v0) * (charge - q0)) / (q1 - q0)
}

describe('the weakest of cells in series', () => {
  it('is lower than any in a pack of capacities within the limits, each discharged from full until they stand there together', () => {
    let seed = 7
    const draw = (from: number, to: number) => {
      seed = (seed * 16807) % 2147483647
      return from + ((to - from) * seed) / 2147483647
    }
    for (const [n, tolerance] of [
      [2, 0.02],
      [2, 0.05],
      [3, 0.03],
    ] as const) {
      const stop = n * 3.2
      const claimed = weakestAt(cell(n, `2000 mAh ±${100 * tolerance} %`), stop, 0)
      let lowest = Number.POSITIVE_INFINITY
      for (let pack = 0; pack < 40; pack++) {
        const isCorner = pack === 0
        const sizes = Array.from({ length: n }, (_, i) =>
          isCorner ? 1 + (i === 0 ? -tolerance : tolerance) : draw(1 - tolerance, 1 + tolerance),
        )
        let drawn = 0
        const all = () => sizes.map((size) => volts(1 - drawn / size))
        while (all().reduce((a, b) => a + b) > stop) drawn += 1e-5
        lowest = Math.min(lowest, ...all())
      }
      expect(claimed).toBeLessThanOrEqual(lowest + 2e-3)
      expect(claimed).toBeGreaterThan(lowest - 2e-3)
    }
  })

  it('is that of each where all are alike, and nothing where it is empty before the stop', () => {
    expect(weakestAt(cell(2, '2000 mAh'), 6.6, 0)).toBeCloseTo(3.3, 6)
    // At a twentieth less the first is empty where the other one, of a twentieth more, still has 3.27 V: 5.77 V together.
    expect(weakestAt(cell(2, '2000 mAh ±5 %'), 5.7, 0)).toBe(0)
    expect(weakestAt(cell(2, '2000 mAh ±5 %'), 5.8, 0)).toBeGreaterThan(2.5)
  })

  it('lies lowest on the curve where the others lie highest, and has less left with age', () => {
    const spread = { openCircuitSpread: 0.02, openCircuitSpreadEmpty: 0.1, capacityLeft: '0.8 ±5 %' }
    // By hand: off the curve by 20 mV anywhere and by 0.1 V more below a tenth, straight from a quarter on; of 0.98 * 0.76 and 1.02 * 0.84.
    const at = (charge: number, sign: 1 | -1) =>
      volts(charge) + sign * (0.02 + 0.1 * Math.min(1, Math.max(0, (0.25 - charge) / 0.15)))
    for (const [age, weak, strong] of [
      [0, 0.98, 1.02],
      [1, 0.98 * 0.76, 1.02 * 0.84],
    ] as const) {
      let drawn = 0
      while (at(1 - drawn / weak, -1) + at(1 - drawn / strong, 1) > 6.9) drawn += 1e-6
      expect(weakestAt(cell(2, '2000 mAh ±2 %', spread), 6.9, age)).toBeCloseTo(at(1 - drawn / weak, -1), 4)
    }
  })
})
