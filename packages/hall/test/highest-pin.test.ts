import { exampleConverters } from '@ohmward/adc'
import { expect, it } from 'vitest'
import { exampleSensors } from '../src/index.js'
import { checked, marginNamed } from './design.js'

it('the pin of a sensor whose output falls as its supply rises is no higher at any supply than over all of them', () => {
  const fixed = { ...exampleSensors.fiveVoltFixedOneWay, supplyMinimum: '3 V', sensitivitySupplyError: '3 %' } as const
  const converter = {
    ...exampleConverters['12-bit controller converter'],
    reference: { kind: 'absolute', voltage: '4.6 V' },
  } as const
  const highest = (from: number, to: number) => {
    const conditions = { rail: { from, to }, nominalRail: 5, ambientCelsius: { from: 25, to: 25 } }
    const choice = { sensor: fixed, converter, current: { from: 0, to: '10 A' } } as const
    return marginNamed(checked(choice, conditions), 'converter-high').worst
  }
  const apart = Array.from({ length: 31 }, (_, i) => 4.3 + 0.02 * i).map((volts) => highest(volts, volts))
  // It clips at either end of the highest: 0.2 V below the supply, and where the sensitivity has lost again.
  expect(Math.max(...apart)).toBeGreaterThan(Math.max(apart[0]!, apart.at(-1)!) + 0.003)
  expect(highest(4.3, 4.9)).toBeGreaterThanOrEqual(Math.max(...apart) - 1e-9)
  expect(highest(4.3, 4.9)).toBeLessThan(4.9 - 0.2)
})
