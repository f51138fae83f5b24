import { describe, expect, it } from 'vitest'
import { dividerOverRail, exampleAmplifiers } from '../src/index.js'
import { cell, check, ideal, knife, margin } from './design.js'

/** Highest output 1.5 V below the rail, everything else ideal; gain 101. */
const poor = {
  ...ideal,
  amplifier: { ...ideal.amplifier, highOutputDrop: '1.5 V', openLoopGainDb: 200 },
  gainResistors: { feedback: '100 kohm', ground: '1 kohm', ratioDrift: 0 },
}

describe('over the discharge', () => {
  it('an amplifier that stops short of the rail saturates where its output would be beyond', () => {
    // Output 101 V 1.2/48.2 against V - 1.5, plus 0.4 mV of resistor noise or so at the output.
    const { saturatesBelow } = dividerOverRail(poor, { ...cell, rail: { from: 2, to: 4.2 } }, 2)
    expect(saturatesBelow).toBe(4.2)
    const twenty = { ...poor, gainResistors: { feedback: '21 kohm', ground: '1 kohm', ratioDrift: 0 } }
    // 22 V 1.2/48.2 = V - 1.5 at V = 3.316.
    const found = dividerOverRail(twenty, { ...cell, rail: { from: 2, to: 4.2 } }, 3)
    expect(found.saturatesBelow).toBeCloseTo(1.5 / (1 - (22 * 1.2) / 48.2), 2)
    expect(found.points.map(({ rail }) => rail)).toEqual([2, 3.1, 4.2])
    const [low, middle, high] = found.points
    expect(low!.headroom).toBeLessThan(middle!.headroom)
    expect(middle!.headroom).toBeLessThan(0)
    expect(high!.headroom).toBeCloseTo(4.2 * (1 - (22 * 1.2) / 48.2) - 1.5, 2)
  })

  it('nothing saturates where there is room, and each point is a check at that rail', () => {
    const { points, saturatesBelow, allowed } = dividerOverRail(knife, cell, 4)
    expect(saturatesBelow).toBeNull()
    expect(allowed).toBeCloseTo(0.035, 12)
    for (const { rail, headroom, worstError, expanded } of points) {
      const here = { ...cell, rail: { from: rail, to: rail }, nominalRail: 3.6 }
      expect(headroom).toBeCloseTo(margin(knife, 'headroom', here).slack, 9)
      expect(worstError).toBeCloseTo(margin(knife, 'error-nominal', here).worst, 9)
      expect(expanded).toBeCloseTo(check(knife, here).budgets.R_ind.linear.expanded, 9)
    }
  })

  it('takes 25 points by default, one rail too', () => {
    expect(dividerOverRail(ideal, cell).points.length).toBe(25)
    const one = dividerOverRail(
      { ...knife, amplifier: exampleAmplifiers.bipolarSingleSupply },
      { ...cell, rail: { from: 3, to: 3 } },
      2,
    )
    expect(one.points[0]).toEqual(one.points[1])
    expect(one.saturatesBelow).toBe(3)
  })
})
