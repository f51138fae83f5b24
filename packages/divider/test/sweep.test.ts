import { describe, expect, it } from 'vitest'
import { sweepDivider } from '../src/index.js'
import { cell, check, knife } from './design.js'

const quick = (choice: typeof knife, conditions: typeof cell) =>
  new Map(check(choice, conditions).margins.map((one) => [one.id, one]))
const middle = 3.6

describe('a sweep over the rail and the air', () => {
  const over = quick(knife, cell)
  const points = sweepDivider(knife, cell, [{ rail: 3 }, { rail: 3.3, ambientCelsius: 50 }, { rail: 4.2 }])

  it('is nowhere worse than over all of both', () => {
    for (const { margins } of points)
      for (const { id, slack } of margins) {
        const whole = over.get(id)!.slack
        expect(slack, id).toBeGreaterThanOrEqual(whole - 1e-9 * Math.abs(whole))
      }
  })

  it('is a check with that rail alone, the firmware as it was', () => {
    const alone = quick(knife, { ...cell, rail: { from: 3, to: 3 }, nominalRail: middle } as typeof cell)
    for (const { id, slack } of points[0]!.margins)
      expect(Math.abs(slack - alone.get(id)!.slack), id).toBeLessThanOrEqual(1e-9 * Math.abs(slack))
    // The supply of the amplifier is the rail: 3 V, then 3.3 V and 4.2 V.
    const supplies = points.map(({ margins }) => margins.find(({ id }) => id === 'supply-low')!.worst)
    expect(supplies[1]! - supplies[0]!).toBeCloseTo(0.3, 9)
    expect(supplies[2]! - supplies[0]!).toBeCloseTo(1.2, 9)
  })
})
