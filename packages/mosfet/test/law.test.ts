import { describe, expect, it } from 'vitest'
import { lawOf } from '../src/junction/law.js'

describe('the temperature law', () => {
  it('is 1 at its reference and has the slope that differences show', () => {
    const laws = [
      lawOf({ kind: 'linear', perKelvin: 0.005 }),
      lawOf({ kind: 'power', exponent: 2.3 }),
      lawOf({ kind: 'power', exponent: 1 }),
      lawOf({
        kind: 'points',
        points: [
          { celsius: 0, factor: 0.9 },
          { celsius: 25, factor: 1 },
          { celsius: 150, factor: 1.7 },
        ],
      }),
    ]
    for (const law of laws) {
      expect(law.factor(25)).toBeCloseTo(1, 12)
      for (const T of [-30, 10, 60, 170]) {
        const h = 1e-3
        expect(law.slope(T, law.factor(T))).toBeCloseTo((law.factor(T + h) - law.factor(T - h)) / (2 * h), 8)
      }
    }
  })

  it('takes another reference temperature', () => {
    expect(lawOf({ kind: 'linear', perKelvin: 0.004, referenceCelsius: 20 }).factor(70)).toBeCloseTo(1.2, 12)
    expect(lawOf({ kind: 'power', exponent: 2, referenceCelsius: 20 }).factor(20)).toBe(1)
  })

  it('runs through its points, straight between them, its end segments carried on', () => {
    const points = [
      { celsius: 0, factor: 0.9 },
      { celsius: 25, factor: 1 },
      { celsius: 125, factor: 1.5 },
    ]
    const law = lawOf({ kind: 'points', points })
    for (const { celsius, factor } of points) expect(law.factor(celsius)).toBeCloseTo(factor, 12)
    expect(law.factor(75)).toBeCloseTo(1.25, 12)
    expect(law.factor(145)).toBeCloseTo(1.6, 12)
    expect(law.factor(-25)).toBeCloseTo(0.8, 12)
    expect(law.corners).toEqual([25])
  })

  it('says how it ends: a line for ever, or steeper than any line', () => {
    expect(lawOf({ kind: 'linear', perKelvin: 0.004 }).lastSlope).toBe(0.004)
    expect(lawOf({ kind: 'power', exponent: 2.3 }).lastSlope).toBe(Number.POSITIVE_INFINITY)
    expect(lawOf({ kind: 'power', exponent: 1 }).lastSlope).toBeCloseTo(1 / 298.15, 12)
  })
})
