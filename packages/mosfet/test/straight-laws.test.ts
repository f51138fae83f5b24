import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { straightLine, typicalBetween } from '../src/datasheet/table.js'
import { checkMosfet, type MosfetChoice, type Transistor } from '../src/index.js'
import { cell, lowSide, nChannelLowVoltage, pin } from './choice.js'

/* An on-resistance that runs straight between its lines goes with the gate, and so with whatever moves that. */

const volts = fc.double({ min: 0.5, max: 12, noNaN: true })
const tables = fc
  .uniqueArray(fc.integer({ min: 2, max: 40 }), { minLength: 1, maxLength: 4 })
  .map((list) => list.sort((a, b) => a - b))
  .chain((list) =>
    fc.tuple(...list.map(() => fc.double({ min: 0.1, max: 0.9, noNaN: true }))).map((shares) => {
      let maximum = 0.1
      return list.map((tenths, i) => {
        maximum *= i === 0 ? 1 : shares[i]!
        return { gateSource: tenths / 4, maximum, typical: maximum * 0.7 }
      })
    }),
  )

describe('an on-resistance between its lines', () => {
  it('steps, where it has several and nothing else is said, and only then is a step told', () => {
    const told = (more: Partial<Transistor>) => {
      const transistor: Transistor = { ...nChannelLowVoltage, ...more }
      const { assumptions } = checkMosfet(lowSide({ transistor }), cell(), { simulation: false })
      return assumptions.some((text) => text.startsWith('At a step from line to line'))
    }
    const two = '1.8 V: 60 mohm; 4.5 V: 5 mohm'
    expect(told({ onResistance: two })).toBe(true)
    expect(told({ onResistance: two, between: 'straight' })).toBe(false)
    expect(told({ onResistance: '1.8 V: 60 mohm' })).toBe(false)
  })

  it('that runs straight meets every line, falls between, and stays before the first and behind the last', () => {
    fc.assert(
      fc.property(tables, volts, fc.double({ min: 0, max: 1, noNaN: true }), (points, V, share) => {
        const [first, last] = [points[0]!, points.at(-1)!]
        for (const { gateSource, maximum, typical } of points) {
          const there = straightLine(points, gateSource)
          expect(there.maximum).toBeCloseTo(maximum, 12)
          expect(there.typical).toBeCloseTo(typical, 12)
          expect(typicalBetween(points, gateSource)).toBeCloseTo(typical, 12)
        }
        points.slice(1).forEach((to, i) => {
          const from = points[i]!
          const between = from.gateSource + share * (to.gateSource - from.gateSource)
          const { maximum, typical } = straightLine(points, between)
          expect(maximum).toBeCloseTo(from.maximum + share * (to.maximum - from.maximum), 9)
          expect(typical).toBeCloseTo(0.7 * maximum, 9)
          expect(typicalBetween(points, between)).toBeCloseTo(typical, 9)
        })
        if (V < first.gateSource) expect(straightLine(points, V).maximum).toBe(first.maximum)
        if (V > last.gateSource) expect(straightLine(points, V).maximum).toBe(last.maximum)
        if (V < first.gateSource || V > last.gateSource) expect(typicalBetween(points, V)).toBeUndefined()
      }),
    )
  })

  it('makes the junction hotter where the gate may stand lower: a pin, a pull and a source that spread', () => {
    const transistor: Transistor = {
      ...nChannelLowVoltage,
      between: 'straight',
      onResistance: '1.8 V: 60 mohm; 4.5 V: 5 mohm',
    }
    const hottest = (drive: Partial<MosfetChoice['drive']>, pull = '100 kohm') => {
      const choice = lowSide({
        transistor,
        drive: { ...pin, ...drive, pull: { at: 'gate', resistance: pull } } as MosfetChoice['drive'],
      })
      const { junction } = checkMosfet(choice, cell(), { simulation: false }).worst
      if (junction.kind !== 'balance') throw new Error('no balance')
      return junction.T_j
    }
    const exact = hottest({ gateResistor: '10 kohm' })
    // A divider of 10 kohm and 100 kohm takes an eleventh of the level; with more of the one, or less of the other, more.
    expect(hottest({ gateResistor: '10 kohm ±20 %' })).toBeGreaterThan(exact + 0.01)
    expect(hottest({ gateResistor: '10 kohm' }, '100 kohm ±20 %')).toBeGreaterThan(exact + 0.01)
    expect(hottest({ gateResistor: '1 kohm' })).toBeLessThan(exact - 0.01)
  })
})
