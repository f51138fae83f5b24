import { describe, expect, it } from 'vitest'
import { checkHall, sweepHall } from '../src/index.js'
import { cell, knife } from './design.js'

/** A converter with a reference of its own, so that what the firmware assumes doesn't move with the range of the rail. */
const choice = {
  ...knife,
  converter: { ...knife.converter, reference: { kind: 'absolute', voltage: '2.5 V ±0.2 %' } },
  sensorSupply: '3.3 V ±1 %',
} as const

describe('a walk over the conditions', () => {
  it('holds every row at a point as a check at that point alone', () => {
    const points = [
      { rail: 3, ambientCelsius: 0 },
      { rail: 4.2, ambientCelsius: 50 },
    ]
    sweepHall(choice, cell, points).forEach(({ at, margins }, i) => {
      const { rail, ambientCelsius } = points[i]!
      const alone = checkHall(
        choice,
        { rail: { from: rail, to: rail }, ambientCelsius: { from: ambientCelsius, to: ambientCelsius } },
        { simulation: false },
      )
      expect(at).toEqual(points[i])
      expect(margins.map(({ id, slack }) => [id, slack])).toEqual(alone.margins.map(({ id, slack }) => [id, slack]))
    })
  })

  it('keeps what the firmware takes for granted of the whole range', () => {
    // A fixed sensor against the rail: at 3 V the code of 0.5 V stands higher than at the middle, 3.6 V.
    const fixed = { ...knife, sensor: { ...knife.sensor, output: 'fixed' } } as const
    const [low] = sweepHall(fixed, cell, [{ rail: 3 }], ['error-1'])
    const { extremes } = low!.budgets['I_1']!
    // Nominal: (0.33 V + 0.2 V)/3 V less 0.33 V/3.6 V, times 3.6 V over 0.2 V/A.
    const nominal = ((0.53 / 3 - 0.33 / 3.6) * 3.6) / 0.2
    expect((extremes.lower + extremes.upper) / 2).toBeCloseTo(nominal, 1)
    expect(low!.margins.map(({ id }) => id)).toEqual(['error-1'])
  })
})
