import { describe, expect, it } from 'vitest'
import { platinumCurve } from '../src/thermometry/curve.js'

describe('the curve of platinum', () => {
  const { ratio, celsius } = platinumCurve
  it('is turned by its inverse from below its table to above it, and rises all the way', () => {
    let before = Number.NEGATIVE_INFINITY
    for (let t = -260; t <= 1000; t += 5) {
      expect(celsius(ratio(t))).toBeCloseTo(t, 6)
      expect(ratio(t)).toBeGreaterThan(before)
      before = ratio(t)
    }
  })

  it('goes straight on beyond -200 and 850 °C (IEC 60751 ends there), as steep as it is at its end', () => {
    for (const [end, way] of [
      [-200, -1],
      [850, 1],
    ] as const) {
      const slope = (ratio(end) - ratio(end - way * 1e-3)) / (way * 1e-3)
      for (const beyond of [1, 20, 50]) {
        expect((ratio(end + way * beyond) - ratio(end)) / (way * beyond) / slope).toBeCloseTo(1, 5)
      }
    }
    // The standard's table: 18.52 ohm of 100 at -200 °C, 390.48 at 850 °C.
    expect(ratio(-200)).toBeCloseTo(0.1852, 4)
    expect(ratio(850)).toBeCloseTo(3.9048, 4)
  })
})
