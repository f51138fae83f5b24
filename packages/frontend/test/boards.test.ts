import { type Design, exampleDesign, readDesign, simulateBoards, solveAt } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { remembered } from '../../../test/tools/remembered.js'
import { boardByNodes, drawsOf } from './nodes.js'

/** Always on, so that no ripple is followed: the rows that may fail are the same. */
const steady: Design = {
  ...exampleDesign,
  pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } },
  hall: { ...exampleDesign.hall, otherTasks: [] },
}

describe('the share of boards that work', () => {
  const asked = remembered(() => simulateBoards(steady, { boards: 500 }))

  it('is the same at every run, and falls with the charge', () => {
    const one = asked()
    expect(simulateBoards(steady, { boards: 500 })).toEqual(one)
    const shares = one.byCharge.map(({ works }) => works)
    expect([...shares].sort((a, b) => b - a)).toEqual(shares)
    expect(shares.at(-1)).toBeLessThan(shares[0]!)
  })
  it('says of none and of all that it is exactly that, and lists what fails by name', () => {
    const { works, interval, rows } = asked()
    expect(works).toBe(0)
    // Of 500 boards none: 1.96²/(500 + 1.96²) by Wilson's formula.
    expect(interval).toEqual([0, expect.closeTo(3.8415 / 503.8415, 5)])
    expect(rows.length).toBeGreaterThan(2)
    // What brings boards down first comes first; what fails on more boards before what fails on fewer.
    expect([...rows].sort((a, b) => b.first - a.first || b.fails - a.fails)).toEqual(rows)
    expect(rows.some((row, i) => i > 0 && row.first === rows[i - 1]!.first)).toBe(true)
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

describe('an element of the path that gets too hot', () => {
  const path = exampleDesign.supply.path.map((one) =>
    one.name === 'wiring and copper'
      ? { ...one, resistance: '20 mohm ±50 %', thermalResistance: 50, highestCelsius: 90 }
      : one,
  )
  const hot: Design = { ...steady, supply: { ...steady.supply, path } }

  it('does so on as many boards as node equations and its own balance say', () => {
    const row = simulateBoards(hot, { boards: 4000 }).rows.find(
      ({ id }) => id === 'supply/temperature-of-wiring-and-copper',
    )!
    const design = readDesign(hot)
    // Hottest on full cells when new and warm.
    const place = { charge: 1, celsius: 50, age: 0 }
    const { switch: on } = solveAt(design, place)
    const wiring = design.supply.path!.find(({ name }) => name === 'wiring and copper')!
    const idle = design.controller.current
    const random = drawsOf(777)
    const boards = 4000
    let failing = 0
    for (let i = 0; i < boards; i++) {
      let [ohms, always] = [0, 0]
      const { current } = boardByNodes(design, place, on, (limits) => {
        const one = random(limits)
        if (limits === wiring.resistance) ohms = one
        if (limits === idle) always = one
        return one
      })
      const amperes = current + always
      let celsius = 50
      for (let turn = 0; turn < 40; turn++) celsius = 50 + 50 * amperes ** 2 * ohms * (1 + 0.00393 * (celsius - 20))
      if (!(celsius <= 90)) failing++
    }
    // Two simulations of 4000 boards differ by 0.011 (one sigma); the loop feels the warmth of its own path as well.
    expect(failing / boards).toBeGreaterThan(0.1)
    expect(failing / boards).toBeLessThan(0.9)
    expect(Math.abs(row.fails - failing / boards)).toBeLessThan(0.06)
  })
})
