import { exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { hotSpotMargin } from '../src/rows/temperature.js'
import type { ReadThermometry } from '../src/thermometry/fields.js'
import { readElement } from '../src/thermometry/law.js'

describe('the hottest spot, 1.5 times the rise of 200 K above 25 °C', () => {
  const wire = { restCelsius: exact(25), hotCelsius: 225, hotSpotFactor: exact(1.5) } as ReadThermometry
  /** Held where the reading lies so much off, K, and may lie further by a doubt that isn't settled. */
  const held = (limit: number, low: number, { high = 0, doubt = 0 as number | null, doubts = [] as string[] } = {}) => {
    const reasons = doubt === 0 ? [] : ['R_s']
    return hotSpotMargin(wire, limit, { extremes: { lower: 225 - low, upper: 225 + high, reasons, doubt }, doubts })
  }

  it('is hotter than the mean by that, and by what the reading lacks of the rise (arithmetic)', () => {
    // 20 K of 200 K are a tenth: 20 / 0.9 = 22.22 K more of the mean, 25 + 1.5 · 222.22 = 358.33 °C.
    expect(held(400, 20).worst).toBeCloseTo(25 + 1.5 * (200 + 20 / 0.9), 9)
    expect(held(400, 5, { high: 20 }).worst).toBe(held(400, 20).worst)
    expect(held(400, 20).nominal).toBe(325)
    expect([held(358.4, 20), held(358.3, 20)].map(({ verdict }) => verdict)).toEqual(['holds', 'fails'])
  })

  it('holds with a doubt that the slack covers, and with no other', () => {
    // 20.5 K: 25 + 1.5 · (200 + 20.5 / 0.8975) = 359.26 °C; 21 K: 25 + 1.5 · (200 + 21 / 0.895) = 360.20 °C.
    expect(held(360, 20, { doubt: 0.5 }).verdict).toBe('holds')
    expect(held(360, 20, { doubt: 1 })).toMatchObject({ verdict: 'not sure', reason: 'R_s' })
    expect(held(360, 20, { doubt: null }).verdict).toBe('not sure')
    expect(held(360, 20, { doubts: ['the rail'] })).toMatchObject({ verdict: 'not sure', reason: 'the rail' })
    expect(held(350, 20, { doubt: null }).verdict).toBe('fails')
  })

  it('is not known from a reading that may miss more than half of the rise', () => {
    expect(held(3000, 100).verdict).toBe('holds')
    expect(held(3000, 101)).toMatchObject({ verdict: 'not sure', reason: expect.stringMatching(/half of the rise/) })
    expect(held(3000, 99, { doubt: 2 }).verdict).toBe('not sure')
  })
})

describe('a straight line whose coefficient is stated at 0 °C', () => {
  it('is the ratio of two points of it, wherever the cold value is stored (arithmetic)', () => {
    const law = readElement({ coefficient: 4e-3, atCelsius: 0 }, 'element')
    // 1.9 over 1.1; from 0 °C itself 1.9.
    expect(law.ratio(225, 25, 4e-3, 0)).toBeCloseTo(1.9 / 1.1, 12)
    expect(law.ratio(225, 0, 4e-3, 0)).toBeCloseTo(1.9, 12)
    expect(law.celsius(1.9 / 1.1, 25)).toBeCloseTo(225, 9)
  })
})
