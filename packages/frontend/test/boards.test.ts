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
})
