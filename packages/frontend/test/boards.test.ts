import { type Design, exampleDesign, simulateBoards } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'

/** Always on, so that no ripple is followed: the rows that may fail are the same. */
const steady: Design = {
  ...exampleDesign,
  pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } },
  hall: { ...exampleDesign.hall, otherTasks: [] },
}

describe('the share of boards that work', () => {
  it('is the same at every run, and falls with the charge', () => {
    const one = simulateBoards(steady, { boards: 500 })
    expect(simulateBoards(steady, { boards: 500 })).toEqual(one)
    const shares = one.byCharge.map(({ works }) => works)
    expect([...shares].sort((a, b) => b - a)).toEqual(shares)
    expect(shares.at(-1)).toBeLessThan(shares[0]!)
  })
  it('says of none and of all that it is exactly that, and lists what fails by name', () => {
    const { works, interval, rows } = simulateBoards(steady, { boards: 500 })
    expect(works).toBe(0)
    // Of 500 boards none: 1.96²/(500 + 1.96²) by Wilson's formula.
    expect(interval).toEqual([0, expect.closeTo(3.8415 / 503.8415, 5)])
    expect(rows.length).toBeGreaterThan(2)
    for (const { block, name, fails, first } of rows) {
      expect(name).toMatch(/^[a-z][a-z ]+/)
      expect(block).not.toBe('')
      expect(fails).toBeGreaterThan(0)
      expect(first).toBeLessThanOrEqual(fails)
    }
    expect(rows[0]).toMatchObject({
      block: 'divider',
      state: 'load off',
      name: 'open-circuit detection',
    })
  })
})
