import { exampleAmplifiers } from '@ohmward/divider'
import { type Design, exampleDesign, readDesign, simulateBoards, solveAt } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { remembered } from '../../../test/tools/remembered.js'
import { boardByNodes, drawsOf } from './nodes.js'

const simulateOnce = remembered(simulateBoards)

const base: Design = { ...exampleDesign, divider: { ...exampleDesign.divider, amplifier: exampleAmplifiers.zeroDrift } }

const designs: Record<string, Design> = {
  'the knife, its sensor short of supply': base,
  'a blade of more resistance, a high brown-out': {
    ...base,
    load: { resistance: '0.95 ohm ±8 %', rise: '20 us' },
    controller: { ...base.controller, brownOut: '2.75 V ±5 %' },
  },
  'a path of more resistance, half as old': {
    ...base,
    supply: {
      ...exampleDesign.supply,
      path: [
        { name: 'contacts', resistance: '20 mohm ±60 %' },
        { name: 'wiring', resistance: '15 mohm ±30 %', tap: 'board' },
        { name: 'connector', resistance: '10 mohm ±50 %' },
      ],
    },
    load: { resistance: '0.8 ohm ±10 %', rise: '20 us' },
    age: { from: 0, to: 0.75 },
  },
}

/**
 * The share of boards of which controller and sensor keep their supply where it is weakest, from circuit laws alone: two
 * nodes, the cell behind its resistance, the controller and the load at the board.
 */
function byNodes(given: Design, boards: number): number {
  const design = readDesign(given)
  const { controller, age, ambientCelsius, requirements } = design
  const charge = 1 - requirements.usableCharge
  const celsius = ambientCelsius.from
  const { switch: on } = solveAt(design, { charge, celsius, age: age.to })
  const draw = drawsOf(12345)
  let works = 0
  for (let n = 0; n < boards; n++) {
    const { U } = boardByNodes(design, { charge, celsius, age: age.to }, on, draw)
    if (U >= draw(controller.brownOut) && U >= 2.7) works++
  }
  return works / boards
}

describe('the share of boards that work', () => {
  it.each(Object.keys(designs))('agrees with node equations of its own: %s', (name) => {
    const { works, interval, boards } = simulateOnce(designs[name]!, { boards: 4000 })
    const own = byNodes(designs[name]!, 40_000)
    const accuracy = 4 * Math.sqrt((own * (1 - own)) / boards + (own * (1 - own)) / 40_000) + 1e-3
    expect(Math.abs(works - own)).toBeLessThan(accuracy)
    expect(own).toBeGreaterThan(0.02)
    expect(own).toBeLessThan(0.98)
    expect(interval[0]).toBeLessThanOrEqual(works)
    expect(interval[1]).toBeGreaterThanOrEqual(works)
  })

  it('is the same at every run, and falls with the charge', () => {
    const one = simulateOnce(base, { boards: 4000 })
    expect(simulateBoards(base, { boards: 4000 })).toEqual(one)
    const shares = one.byCharge.map(({ works }) => works)
    expect([...shares].sort((a, b) => b - a)).toEqual(shares)
  })
})
