import { type BlockRow, estimateLimit, estimateRow, plainMargin, type Reading } from '@ohmward/budget'
import { plusMinus, relative } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'

const inputs = { V: plusMinus(12, 0.5), R: relative(4, 0.05) }
const text = { id: 'power', name: 'power', unit: 'W', sense: 'at most', catches: [] } as const

describe('a glance at a value against its limit', () => {
  it('takes nominal parts at the worst end of the conditions, then one part after the other', () => {
    const { nominal, worst, slack } = estimateLimit({ inputs, conditions: ['V'] }, 'at most', ({ V, R }, seen) => {
      seen.value = V! ** 2 / R!
      seen.limit = 45
    })
    expect(nominal).toBeCloseTo(12.5 ** 2 / 4, 12)
    expect(worst).toBeCloseTo(12.5 ** 2 / 3.8, 12)
    expect(slack).toBeCloseTo(45 - 12.5 ** 2 / 3.8, 12)
  })

  it('takes the parts together too, where that is more than their sum: a product of two that both grow', () => {
    const both = { A: relative(2, 0.5), B: relative(3, 0.5) }
    const { worst } = estimateLimit({ inputs: both, conditions: [] }, 'at most', ({ A, B }, seen) => {
      seen.value = A! * B!
      seen.limit = 20
    })
    // One after the other: 6 + 3 + 3; together: 3 * 4.5.
    expect(worst).toBeCloseTo(13.5, 12)
  })
})

describe('a glance at a row', () => {
  it('of physics of its own is what that knows at a glance, else what it holds', () => {
    const margin = plainMargin(text, 3, 5)
    const own: BlockRow = { kind: 'own', ...text, hold: () => margin }
    expect(estimateRow(own)).toEqual({ nominal: 3, worst: 3, limit: 5, slack: 2 })
    const seen = { nominal: 1, worst: 2, limit: 5, slack: 3 }
    expect(estimateRow({ ...own, estimate: () => seen })).toBe(seen)
  })

  it('of an error is the further of both ways', () => {
    const place: Record<string, number> = { x: 0 }
    const reading: Reading = {
      inputs: { x: { ...plusMinus(10, 2), lower: 9 } },
      conditions: [],
      row: (columns, i) => {
        place['x'] = columns['x']![i]!
        return place
      },
      follow: (x) => x,
      formulas: [],
    }
    const row: BlockRow = {
      kind: 'error',
      ...text,
      reading,
      shown: ({ x }) => x!,
      truth: 10,
      allowed: 2.5,
      budget: { name: 'x', symbol: 'x', quantity: 'value' },
    }
    expect(estimateRow(row)).toEqual({ nominal: 0, worst: 2, limit: 2.5, slack: 0.5 })
  })
})
