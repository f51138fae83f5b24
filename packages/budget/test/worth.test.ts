import { plusMinus } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { type Budget, budgetOf, stoppedShort, worthText } from '../src/index.js'

const of = (model: (x: { a: number }) => number, simulation: object | false = {}): Budget =>
  budgetOf({ symbol: 'V', quantity: 'output', unit: 'V', inputs: { a: plusMinus(0, 1) }, model, simulation })

describe('what a reading is worth', () => {
  it('is the linear interval where simulation bears it out', () => {
    // 1.96 times 1/√3 is beyond the limits of one rectangle; its own 95 % are 0.95.
    expect(
      worthText(
        of(({ a }) => 5 + a, false),
        5,
      ),
    ).toBe('±1 V (95 %), at worst ±1 V')
    expect(
      worthText(
        of(({ a }) => 5 + a),
        5,
      ),
    ).toBe('±950 mV (95 %), at worst ±1 V')
  })

  it('is the simulated one where the slope at the middle is blind', () => {
    // a² of ±1 has no slope at 0; 97.5 % of |a| lie below 0.975, so of a² below 0.951.
    const blind = of(({ a }) => 5 + a * a + 1e-3 * a)
    expect(blind.comparison!.agrees).toBe(false)
    expect(worthText(blind, 5)).toBe('±950 mV (95 %), at worst ±1.01 V')
  })

  it('is never said to be better than it is', () => {
    // ±0.3141 V of one rectangle; 1.96/√3 of it are 0.3554 V, and no more than the whole, which is rounded up.
    expect(
      worthText(
        of(({ a }) => 5 + 0.3141 * a, false),
        5,
      ),
    ).toBe('±310 mV (95 %), at worst ±315 mV')
  })

  it('counts from the true value, whatever the middle is', () => {
    expect(
      worthText(
        of(({ a }) => 5.5 + 0.1 * a, false),
        5,
      ),
    ).toBe('±600 mV (95 %), at worst ±600 mV')
  })
})

it('says which simulation stopped short', () => {
  const short = of(({ a }) => a, { method: 'plain', maximumTrials: 2048, accuracy: 1e-4 })
  expect(stoppedShort([short])).toEqual([expect.stringMatching(/^The simulation of the output stopped at \d+ trials/)])
  expect(stoppedShort([of(({ a }) => a, { accuracy: 0.1 }), of(({ a }) => a, false)])).toEqual([])
})
