import { simulateBoards } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { shareOf } from './frontend/circuit.js'
import { wholeDesigns } from './frontend/design.js'
import { Random } from './tools/random.js'

describe('the share of boards that work against a simulation from node equations', () => {
  const [boards, own] = [2000, 8000]

  /** What the model looks at; were another row in doubt, the two would not count the same. */
  const modelled = [
    'divider/open-load',
    'hall/error-2',
    'hall/supply-low',
    'decoupling/rail-sensor',
    'decoupling/rail-brown-out',
    'decoupling/steady-sag',
  ]

  it.each(Object.keys(wholeDesigns))('%s', (name) => {
    const design = wholeDesigns[name]!
    const { works, interval, rows } = simulateBoards(design.given, { boards })
    const share = shareOf(design, new Random(20261128), own)
    expect(modelled).toEqual(expect.arrayContaining(rows.map(({ id }) => id)))
    // 95 % for its own boards, and what the model's number of them leaves open.
    const half = 1.96 * Math.sqrt((share * (1 - share)) / own)
    expect(share + half).toBeGreaterThan(interval[0])
    expect(share - half).toBeLessThan(interval[1])
    expect(Math.abs(works - 0.5)).toBeLessThan(0.45)
  })
})
