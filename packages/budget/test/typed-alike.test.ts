import { between, exact, readSpread } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { typedAlike } from '../src/index.js'

describe('another value with the width of a spread', () => {
  it('is read back as far off each way, as a share of it', () => {
    const share = fc.double({ min: 0.001, max: 1.8, noNaN: true })
    fc.assert(
      fc.property(share, fc.double({ min: 0.001, max: 0.9, noNaN: true }), share, (above, below, factor) => {
        const spread = between(47e3 * (1 - below), 47e3 * (1 + above), 47e3)
        const read = readSpread(typedAlike(spread, 47e3 * factor, 'ohm', 6), { field: 'R', unit: 'ohm' })
        expect(read.nominal / (47e3 * factor)).toBeCloseTo(1, 4)
        expect(read.upper / read.nominal - 1).toBeCloseTo(above, 2)
        expect(1 - read.lower / read.nominal).toBeCloseTo(below, 2)
      }),
      { seed: 7, numRuns: 300 },
    )
  })

  it('keeps what is uneven so, and an exact one exact', () => {
    const text = (given: string) => typedAlike(readSpread(given, { field: 'R', unit: 'ohm' }), 20e3, 'ohm')
    expect(text('100 kohm +5/-2 %')).toBe('20 kohm +5/-2 %')
    expect(text('100 kohm ±1 %')).toBe('20 kohm ±1 %')
    expect(typedAlike(exact(1e5), 2e4, 'ohm')).toBe('20 kohm')
  })
})
