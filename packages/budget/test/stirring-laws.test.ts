import { plusMinus } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { marginOf } from '../src/index.js'

/* Parts that do nothing until several others stand at their worst: of the larger of two lines, the second comes up only with all of its own. */

const text = { id: 'out', name: 'output', unit: 'V', sense: 'at most', catches: [] } as const
const ways = [-1, 1] as const

describe('a worst case behind a clip, with the conditions fixed', () => {
  it('is found where parts that do nothing alone take another with them, whichever way each has to go', () => {
    for (const p of ways)
      for (const q of ways)
        for (const v of ways) {
          // At s = 1 the first line reaches 1 V, the second 0.5 V with v alone, 0.3 V with p and q alone, 1.3 V with all three.
          const value = (x: Readonly<Record<'s' | 'v' | 'p' | 'q', number>>) =>
            Math.max(x.s, -0.5 + v * x.v + 0.4 * p * x.p + 0.4 * q * x.q)
          const inputs = { s: plusMinus(0, 1), v: plusMinus(0, 1), p: plusMinus(0, 1), q: plusMinus(0, 1) }
          const { worst, verdict, at } = marginOf({ ...text, value, limit: 1.2 }, { inputs, conditions: [] })
          expect(worst).toBeCloseTo(1.3, 12)
          expect(verdict).toBe('fails')
          expect(at).toMatchObject({ v, p, q })
        }
  })

  it('is found at whichever corner of three such parts', () => {
    const names = ['a', 'b', 'c']
    for (let corner = 0; corner < 2 ** names.length; corner++) {
      // 0.5 V with v alone, 1.3 V with all of the others at the one corner, at most 1 V where one of them is not.
      const each = 0.8 / names.length
      const value = (x: Readonly<Record<string, number>>) =>
        Math.max(
          x['s']!,
          names.reduce((sum, name, k) => sum + each * ((corner >> k) & 1 ? 1 : -1) * x[name]!, x['v']! - 0.5),
        )
      const inputs = Object.fromEntries(['s', 'v', ...names].map((name) => [name, plusMinus(0, 1)]))
      const { worst } = marginOf({ ...text, value, limit: 1.2 }, { inputs, conditions: [] })
      expect(worst, `${corner}`).toBeCloseTo(1.3, 12)
    }
  })

  it('of more such parts, too, as one of many corners', () => {
    // Six parts that do nothing alone: 0.25 V each, of which it takes five with v to come beyond 1 V.
    const names = ['a', 'b', 'c', 'd', 'e', 'f'] as const
    const inputs = Object.fromEntries(['s', 'v', ...names].map((name) => [name, plusMinus(0, 1)]))
    for (const sign of ways) {
      const value = (x: Readonly<Record<string, number>>) =>
        Math.max(x['s']!, -0.9 + x['v']! + names.reduce((sum, name) => sum + 0.25 * sign * x[name]!, 0))
      const { worst } = marginOf({ ...text, value, limit: 1.2 }, { inputs, conditions: [] })
      expect(worst).toBeCloseTo(1.6, 12)
    }
  })
})
